import { add, compare, type Fraction } from "../../base/index.js";
import { intervalBetween, type Key, pitchClasses, type Scale, scaleText, transposePitch } from "../../pattern/index.js";
import type { OpenStretch } from "../../schema/index.js";
import { isBinary } from "../../time/index.js";
import type { Drill, Settings } from "../model.js";
import { openBarsOf } from "../rung/settings.js";
import { barsTouched } from "./bars.js";
import { joined, type Stretch } from "./stretch.js";
import type { TakeBar, TakeContext } from "./take.js";

/** The open stretches of the score, with their scale in the rung's key. */
export function scoreOpen({ drill, pattern, bars, time, open }: TakeContext): readonly OpenStretch[] {
  if (drill.open === undefined) return [];
  const scale = scaleMoved(drill.open.scale, drill.pattern.key, pattern.key);
  const { subdivision } = drill.open;
  return open.map((stretch) => ({
    from: time.at(stretch.from),
    to: time.at(stretch.to),
    bars: barsTouched(stretch, bars),
    scale: scaleText(scale),
    pitchClasses: pitchClasses(scale),
    grid: gridOf(stretch, subdivision, isBinary(subdivision) ? time.at : time.straight),
    subdivision: time.lasting(subdivision, stretch.from),
  }));
}

/** The stretches of a take in which the student improvises, in order. Neighbouring open bars are one stretch. The outro is never open, because the student has to land on written notes. */
export function openStretches(drill: Drill, settings: Settings, bars: readonly TakeBar[]): readonly Stretch[] {
  const open = new Set(openBarsOf(settings));
  const left = bars.filter((bar) => bar.phrase <= drill.phrases && open.has(bar.patternBar));
  return joined(left.map(({ position, end }) => ({ from: position, to: end })));
}

/** Transposes a scale as the pattern is transposed, from one key to another. */
function scaleMoved(scale: Scale, from: Key, to: Key): Scale {
  const moved = transposePitch({ ...scale.tonic, octave: 4 }, intervalBetween(from.tonic, to.tonic));
  return { ...scale, tonic: { letter: moved.letter, alter: moved.alter } };
}

/** The times of the subdivisions of a stretch, in seconds. */
function gridOf({ from, to }: Stretch, subdivision: Fraction, at: (position: Fraction) => number): readonly number[] {
  const grid: number[] = [];
  for (let position = from; compare(position, to) < 0; position = add(position, subdivision)) grid.push(at(position));
  return grid;
}
