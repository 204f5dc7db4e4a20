import { add, compare, type Fraction } from "../../base/index.js";
import { intervalBetween, type Key, pitchClasses, type Scale, scaleText, transposePitch } from "../../pattern/index.js";
import type { OpenStretch } from "../../schema/index.js";
import type { Drill, Settings } from "../model.js";
import { openBarsOf } from "../rung/settings.js";
import { barsTouched } from "./bars.js";
import { joined, type Stretch } from "./stretch.js";
import type { TakeBar, TakeContext } from "./take.js";

/** The open stretches with their scale, moved along with the key. */
export function scoreOpen({ drill, pattern, bars, time, open }: TakeContext): readonly OpenStretch[] {
  if (drill.open === undefined) return [];
  const scale = scaleMoved(drill.open.scale, drill.pattern.key, pattern.key);
  const subdivision = time.length(drill.open.subdivision);
  return open.map((stretch) => ({
    from: time.at(stretch.from),
    to: time.at(stretch.to),
    bars: barsTouched(stretch, bars),
    scale: scaleText(scale),
    pitchClasses: pitchClasses(scale),
    grid: gridOf(stretch, drill.open!.subdivision, time),
    subdivision,
  }));
}

/** The stretches of a take left to the player, in order; neighbouring open bars are one. The landing is never open: it is what the player lands on. */
export function openStretches(drill: Drill, settings: Settings, bars: readonly TakeBar[]): readonly Stretch[] {
  const open = new Set(openBarsOf(settings));
  const left = bars.filter((bar) => bar.phrase <= drill.phrases && open.has(bar.patternBar));
  return joined(left.map(({ position, end }) => ({ from: position, to: end })));
}

/** A scale moved along with the pattern from its own key to another. */
export function scaleMoved(scale: Scale, from: Key, to: Key): Scale {
  const moved = transposePitch({ ...scale.tonic, octave: 4 }, intervalBetween(from.tonic, to.tonic));
  return { ...scale, tonic: { letter: moved.letter, alter: moved.alter } };
}

/** When each subdivision of the stretch falls, seconds, swing included. */
function gridOf({ from, to }: Stretch, subdivision: Fraction, time: TakeContext["time"]): readonly number[] {
  const grid: number[] = [];
  for (let position = from; compare(position, to) < 0; position = add(position, subdivision))
    grid.push(time.at(position));
  return grid;
}
