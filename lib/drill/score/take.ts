import { add, compare, type Fraction, fraction, multiply } from "../../base/index.js";
import type { Pattern } from "../../pattern/index.js";
import { barLength, type Meter, type Pace, parseTempo, secondsAt, secondsOf } from "../../time/index.js";
import type { Does, Drill, Settings } from "../model.js";
import type { Stretch } from "./stretch.js";

/** Everything the pieces of a score are written from; positions in whole notes from the downbeat of bar 1. */
export interface TakeContext {
  readonly drill: Drill;
  readonly settings: Settings;
  /** The drill's pattern in the rung's key. */
  readonly pattern: Pattern;
  readonly bars: readonly TakeBar[];
  readonly time: TakeTime;
  readonly does: ReadonlyMap<string, Does>;
  readonly silences: readonly Stretch[];
  readonly open: readonly Stretch[];
}

/** A bar of a take, `position` included, `end` excluded, in whole notes from the downbeat of bar 1. */
export interface TakeBar {
  /** In the take, from 1. */
  readonly number: number;
  readonly position: Fraction;
  readonly end: Fraction;
  readonly meter: Meter;
  /** From 1; the landing counts as one more. */
  readonly phrase: number;
  /** Number of the bar in the pattern, from 1. */
  readonly patternBar: number;
}

/** The length of a take from the downbeat of bar 1, landing included, in whole notes. */
export function takeLength(drill: Drill): Fraction {
  return add(phraseStart(drill, drill.phrases + 1), drill.landing);
}

/** Where a phrase (from 1) begins; the landing is phrase `phrases + 1`. */
export function phraseStart(drill: Drill, phrase: number): Fraction {
  return multiply(drill.pattern.length, fraction(phrase - 1));
}

/** Every bar of a take, in order; the last one shorter when the landing ends inside it. */
export function takeBars(drill: Drill): readonly TakeBar[] {
  const bars: TakeBar[] = [];
  const total = takeLength(drill);
  for (let phrase = 1; phrase <= drill.phrases + 1; phrase++) {
    const start = phraseStart(drill, phrase);
    for (const bar of drill.pattern.bars) {
      const position = add(start, bar.position);
      if (compare(position, total) >= 0) return bars;
      const full = add(position, barLength(bar.meter));
      const end = compare(full, total) > 0 ? total : full;
      bars.push({ number: bars.length + 1, position, end, meter: bar.meter, phrase, patternBar: bar.number });
    }
  }
  return bars;
}

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
