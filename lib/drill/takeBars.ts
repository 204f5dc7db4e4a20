import { add, compare, type Fraction, fraction, multiply } from "../base/index.js";
import { barLength, type Meter } from "../time/index.js";
import type { Drill } from "./model.js";

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
