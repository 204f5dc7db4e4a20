import { intervalBetween, type Key, type Scale, transposePitch } from "../pattern/index.js";
import type { Drill, Settings } from "./model.js";
import { openBarsOf } from "./settings.js";
import { joined, type Stretch } from "./stretch.js";
import type { TakeBar } from "./takeBars.js";

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
