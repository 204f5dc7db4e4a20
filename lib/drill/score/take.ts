import { add, compare, type Fraction, fraction, multiply } from "../../base/index.js";
import type { Pattern } from "../../pattern/index.js";
import { barLength, type Meter, type Pace, readTempo, secondsAt, secondsOf } from "../../time/index.js";
import type { Does, Drill, Settings } from "../model.js";
import type { Stretch } from "./stretch.js";

/** One take of a rung in a mix, from which all parts of the score are written. Positions in whole notes from the downbeat of bar 1. */
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
  /** Number of the bar in the take, from 1. */
  readonly number: number;
  readonly position: Fraction;
  readonly end: Fraction;
  readonly meter: Meter;
  /** Number of the phrase, from 1; the outro is one more. */
  readonly phrase: number;
  /** Number of the bar in the pattern, from 1. */
  readonly patternBar: number;
}

/** The length of a take from the downbeat of bar 1, outro included, in whole notes. */
export function takeLength(drill: Drill): Fraction {
  return add(phraseStart(drill, drill.phrases + 1), drill.outro);
}

/** The position at which a phrase (from 1) begins; the outro is phrase `phrases + 1`. */
export function phraseStart(drill: Drill, phrase: number): Fraction {
  return multiply(drill.pattern.length, fraction(phrase - 1));
}

/** All bars of a take, in order. The last bar is shorter when the outro ends inside it. */
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

/** Seconds are rounded to the nanosecond: far below what is measured, and above the last digits, in which machines differ. */
const PER_SECOND = 1e9;

/** Converts positions of a take to seconds from the downbeat of bar 1. */
export interface TakeTime {
  /** The time of a position in seconds, swing included. */
  at(position: Fraction): number;
  /** The duration in seconds of a length without swing: a bar, a beat, a count-in. */
  length(wholeNotes: Fraction): number;
  /** Beats per minute. */
  readonly tempo: Fraction;
}

/** The conversion for a take at a rung's tempo. Pairs of swung notes are counted in the bars of the take. */
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
  const tempo = readTempo(settings.tempo);
  if (tempo === undefined) throw new RangeError(`not a tempo: ${settings.tempo}`);
  return tempo;
}

/** Seconds rounded to the nanosecond; never -0. */
export function rounded(seconds: number): number {
  return Math.round(seconds * PER_SECOND) / PER_SECOND + 0;
}
