import { add, type Fraction, fraction, parseFraction, toNumber } from "../base/index.js";
import type { Score } from "../schema/index.js";
import { type MeteredBar, parseMeter, parseSwing, type Swing } from "../time/index.js";

/** Parses a position or length of a score, in whole notes. Throws `RangeError` for any other text. */
export function exactly(text: string): Fraction {
  const read = parseFraction(text);
  if (read === undefined) throw new RangeError(`a score holds positions such as 5/16, got ${JSON.stringify(text)}`);
  return read;
}

/** The bars of a score with their meters, as `lib/time` takes them. Throws `RangeError` when there are none. */
export function meteredBars(score: Score): readonly MeteredBar[] {
  if (score.bars.length === 0) throw new RangeError("a score has at least one bar, got none");
  return score.bars.map(({ position, meter }) => {
    const read = parseMeter(meter);
    if (!read.ok) throw new RangeError(`a score holds meters such as 4/4, got ${JSON.stringify(meter)}`);
    return { position: exactly(position), meter: read.value };
  });
}

/** The swing of a score; `undefined` when its notes are straight. Throws `RangeError` for a text that is not a swing. */
export function swingOf(score: Score): Swing | undefined {
  if (score.swing === undefined) return undefined;
  const read = parseSwing(score.swing);
  if (!read.ok) throw new RangeError(`a score holds swings such as 2:1 1/8, got ${JSON.stringify(score.swing)}`);
  return read.value;
}

/** The length of the take from the downbeat of bar 1, outro included, in whole notes: the exact value behind the seconds in the score. */
export function lengthOf(score: Score): Fraction {
  const last = score.tempi?.at(-1);
  if (last === undefined) return wholeNotes(score, score.duration);
  return add(exactly(last.position), wholeNotes({ ...score, beat: last.beat }, score.duration - last.at));
}

/** The length of the count-in in whole notes; 0 when there is none. */
export function countInOf(score: Score): Fraction {
  return wholeNotes(score, score.countIn);
}

/** The fraction of whole notes with the smallest denominator that lasts `seconds`; a score states seconds to the nanosecond. */
function wholeNotes(score: Score, seconds: number): Fraction {
  const value = (seconds / score.beat) * toNumber(beatUnitOf(score));
  for (let d = 1; d < FINEST_LENGTH; d++) {
    if (Math.abs(value * d - Math.round(value * d)) < LENGTH_TOLERANCE * d) return fraction(Math.round(value * d), d);
  }
  return fraction(Math.round(value * FINEST_LENGTH), FINEST_LENGTH);
}

/** The largest denominator: our choice, 64th notes divided by up to fifteen. */
const FINEST_LENGTH = 64 * 15;
/** Tolerance in whole notes: far above a nanosecond on a beat of a tenth of a second, far below half of 1/960. */
const LENGTH_TOLERANCE = 1e-6;

/** Whole notes to a beat of the score's tempo. */
export function beatUnitOf(score: Score): Fraction {
  return score.beatUnit === undefined ? fraction(1, 4) : exactly(score.beatUnit);
}
