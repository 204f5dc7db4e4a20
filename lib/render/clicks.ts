import { compare, divide, type Fraction, fraction, negate, subtract } from "../base/index.js";
import type { Score } from "../schema/index.js";
import { barAt, barLength, type Meter } from "../time/index.js";
import { beatUnitOf, countInOf, meteredBars } from "./scoreTime.js";

/** A click of the count-in. */
export interface Click {
  /** Whole notes from the downbeat of bar 1: negative. Swing does not move it. */
  readonly position: Fraction;
  /** Whether it is the first beat of a bar. */
  readonly isDownbeat: boolean;
}

/**
 * The clicks of a score's count-in, in order of time. Empty for a score without count-in.
 *
 * A click falls on each beat of the tempo when whole beats fill the bar, else on each group of the meter: 7/8 as 2+2+3 with a quarter beat is
 * counted one, two, three (our choice, because a band counts the groups). Clicks are counted backwards from bar 1, in the meter of bar 1.
 *
 * @example clicksOf(score).length // 4 for a bar of 4/4
 */
export function clicksOf(score: Score): readonly Click[] {
  const bars = meteredBars(score);
  const start = negate(countInOf(score));
  const beat = beatUnitOf(score);
  const steps = stepsOf(bars[0]!.meter, beat);
  const clicks: Click[] = [];
  let before: Fraction = fraction(0);
  for (let i = steps.length - 1; ; i = (i + steps.length - 1) % steps.length) {
    before = subtract(before, steps[i]!);
    if (compare(before, start) < 0) return clicks.reverse();
    clicks.push({ position: before, isDownbeat: compare(barAt(before, bars).position, before) === 0 });
  }
}

/** The lengths between the clicks of a bar, in whole notes. */
function stepsOf(meter: Meter, beat: Fraction): readonly Fraction[] {
  const count = divide(barLength(meter), beat);
  if (count.d === 1) return new Array<Fraction>(count.n).fill(beat);
  return meter.groups.map((size) => fraction(size, meter.lower));
}
