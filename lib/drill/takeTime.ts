import type { Fraction } from "../base/index.js";
import { type Pace, parseTempo, secondsAt, secondsOf } from "../time/index.js";
import type { Drill, Settings } from "./model.js";
import type { TakeBar } from "./takeBars.js";

/** Seconds are written to the nanosecond: far below anything measured, and above the last digits in which machines differ. */
const PER_SECOND = 1e9;

/** What turns the positions of a take into seconds from the downbeat of bar 1. */
export interface TakeTime {
  /** When a position sounds, swing included. */
  at(position: Fraction): number;
  /** How long a length lasts that is not swung: a bar, a beat, a count-in. */
  length(wholeNotes: Fraction): number;
  /** Beats per minute. */
  readonly tempo: Fraction;
}

/** The time of a take at a rung's tempo; pairs of swung notes are counted in the take's own bars. */
export function takeTime(drill: Drill, settings: Settings, bars: readonly TakeBar[]): TakeTime {
  const tempo = tempoOf(settings);
  const pace: Pace = { tempo, beat: drill.beat, swing: drill.pattern.swing, bars };
  return {
    at: (position) => rounded(secondsAt(position, pace)),
    length: (wholeNotes) => rounded(secondsOf(wholeNotes, pace)),
    tempo,
  };
}

/** The tempo of a rung in beats per minute. Throws `RangeError` when the settings do not have one. */
export function tempoOf(settings: Pick<Settings, "tempo">): Fraction {
  const tempo = parseTempo(settings.tempo);
  if (!tempo.ok) throw new RangeError(`not a tempo: ${settings.tempo}`);
  return tempo.value.perMinute;
}

/** Seconds rounded as they are written; never -0. */
export function rounded(seconds: number): number {
  return Math.round(seconds * PER_SECOND) / PER_SECOND + 0;
}
