import { type Fraction, fraction, toNumber } from "../base/index.js";

/** A climb of tempi by per cent: step k is `from * ratio^k` beats per minute, rounded. */
export interface TempoClimb {
  readonly from: Fraction;
  readonly ratio: Fraction;
}

/** Steps per beat per minute. Our choice of tenths, because 0.1 is far below the 1.5 % that is heard, and reads well on a metronome. */
const GRAIN = 10;
/** The last digits of a power differ between machines; halves are lifted by far more than that, so that all of them go up. */
const LIFT = 1e-9;

/** Step `k` of a climb by per cent, to a tenth of a beat per minute, halves up. */
export function tempoAfter(climb: TempoClimb, steps: number): Fraction {
  if (steps === 0) return climb.from;
  const tenths = toNumber(climb.from) * toNumber(climb.ratio) ** steps * GRAIN;
  return fraction(Math.floor(tenths + 0.5 + LIFT), GRAIN);
}

/** How many steps (not whole) lie between the start of a climb and a tempo. */
export function stepsBetween(climb: TempoClimb, tempo: Fraction): number {
  return Math.log(toNumber(tempo) / toNumber(climb.from)) / Math.log(toNumber(climb.ratio));
}
