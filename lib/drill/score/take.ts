import { add, compare, type Fraction, fraction, multiply, subtract, ZERO } from "../../base/index.js";
import type { Pattern } from "../../pattern/index.js";
import { barLength, type Meter, secondsOf, swungPosition } from "../../time/index.js";
import type { Does, Drill, Settings } from "../model.js";
import { tempoInPhrase } from "../rise.js";
import { earliest, type Stretch } from "./stretch.js";

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
      const end = earliest(add(position, barLength(bar.meter)), total);
      bars.push({ number: bars.length + 1, position, end, meter: bar.meter, phrase, patternBar: bar.number });
    }
  }
  return bars;
}

/** Seconds are rounded to the nanosecond: far below what is measured, and above the last digits, in which machines differ. */
const PER_SECOND = 1e9;

/** Converts positions of a take to seconds from the downbeat of bar 1. */
export interface TakeTime {
  /** The time of a position in seconds, swing included; `late` whole notes later, or earlier when negative, as notes of tuplets are. */
  at(position: Fraction, late?: Fraction): number;
  /** The time of a position in seconds, without swing: an end of the take, the first click of a count-in. */
  straight(position: Fraction): number;
  /** Seconds of a length at the tempo that a position has. */
  lasting(length: Fraction, position: Fraction): number;
  /** Seconds a beat at a position. */
  beatAt(position: Fraction): number;
  /** The tempi of the take, in order, each from where it begins; one where nothing rises. */
  readonly tempi: readonly TakeTempo[];
}

/** A tempo of a take and the position from which it holds. */
export interface TakeTempo {
  readonly position: Fraction;
  /** Seconds from the downbeat of bar 1. */
  readonly at: number;
  /** Beats per minute. */
  readonly tempo: Fraction;
}

/** The conversion for a take at a rung's tempi. Pairs of swung notes are counted in the bars of the take. */
export function takeTime(drill: Drill, settings: Settings, bars: readonly TakeBar[]): TakeTime {
  const { beat, pattern } = drill;
  const tempi: TakeTempo[] = [];
  let inPhrase = fraction(1);
  for (const { number, position, phrase, patternBar } of bars) {
    if (patternBar === 1 && phrase <= drill.phrases) inPhrase = tempoInPhrase(settings, phrase);
    const tempo = multiply(inPhrase, paceIn(pattern, number));
    const before = tempi.at(-1);
    if (before && compare(before.tempo, tempo) === 0) continue;
    const at = before ? before.at + secondsOf(subtract(position, before.position), { tempo: before.tempo, beat }) : 0;
    tempi.push({ position, at, tempo });
  }
  const straight = (position: Fraction): number => {
    const { at: from, position: start, tempo } = tempoAt(tempi, position);
    return from + secondsOf(subtract(position, start), { tempo, beat });
  };
  const lasting = (length: Fraction, position: Fraction): number =>
    rounded(secondsOf(length, { tempo: tempoAt(tempi, position).tempo, beat }));
  return {
    at: (position, late = ZERO) => rounded(straight(add(swungPosition(position, pattern.swing, bars), late))),
    straight: (position) => rounded(straight(position)),
    lasting,
    beatAt: (position) => lasting(beat, position),
    tempi,
  };
}

/** How much faster than the tempo a bar of the take (from 1) goes, where the grid is that of a recording; 1 elsewhere. */
export function paceIn({ paces }: Pattern, bar: number): Fraction {
  return paces?.[(bar - 1) % paces.length] ?? fraction(1);
}

/** The tempo of a take at a position. */
export function tempoAt(tempi: readonly TakeTempo[], position: Fraction): TakeTempo {
  return tempi.findLast((each) => compare(each.position, position) <= 0) ?? tempi[0]!;
}

/** Seconds rounded to the nanosecond; never -0. */
export function rounded(seconds: number): number {
  return Math.round(seconds * PER_SECOND) / PER_SECOND + 0;
}
