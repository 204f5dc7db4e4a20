import { add, type Fraction, fraction, multiply, toNumber } from "../../base/index.js";
import { decimalText, parseDecimal, readSpan, spanText } from "../../time/index.js";
import type { Ladder } from "../model.js";

/** The value of step `k` (from 0) of a ladder, as canonical text. Throws `RangeError` outside the ladder. */
export function ladderValue(ladder: Ladder, k: number): string {
  if (!(Number.isInteger(k) && k >= 0 && k < ladder.count))
    throw new RangeError(`the ladder of ${ladder.parameter} has steps 0 to ${ladder.count - 1}, got ${k}`);
  const { values } = ladder;
  switch (values.kind) {
    case "list":
      return values.texts[k]!;
    case "spans":
      return spanText({ count: climbed(values.from.count, values.by, k), unit: values.from.unit });
    case "tempi":
      return decimalText(climbed(values.from, values.by, k));
    case "tempi by ratio":
      return decimalText(tempoAfter(values, k));
  }
}

/** The step (from 0) of a ladder with this canonical text; `undefined` when there is none. Lists are searched, progressions are solved. */
export function ladderStep(ladder: Ladder, text: string): number | undefined {
  const { values } = ladder;
  if (values.kind === "list") {
    const k = values.texts.indexOf(text);
    return k < 0 ? undefined : k;
  }
  // Solved in floating point, then confirmed on the exact text of the neighbouring steps.
  const k = Math.round(stepsTo(values, text)) + 0;
  return [k, k - 1, k + 1].find((step) => step >= 0 && step < ladder.count && ladderValue(ladder, step) === text);
}

/** Geometric progression of tempi: step k is `from * ratio^k`, rounded to whole beats per minute. */
interface TempoClimb {
  readonly from: Fraction;
  readonly ratio: Fraction;
}

/** Added before rounding, so that halves go up on all machines: the last digits of a power differ between machines by far less. */
const LIFT = 1e-9;

/** Step k of a progression by per cent, rounded to whole beats per minute, halves up: every metronome can be set to those (common practice, no source). The first is as it is written. */
export function tempoAfter(climb: TempoClimb, steps: number): Fraction {
  if (steps === 0) return climb.from;
  return fraction(Math.floor(toNumber(climb.from) * toNumber(climb.ratio) ** steps + 0.5 + LIFT));
}

/** Number of steps (a real number) from the start of a progression by per cent to a tempo. */
export function stepsBetween(climb: TempoClimb, tempo: Fraction): number {
  return Math.log(toNumber(tempo) / toNumber(climb.from)) / Math.log(toNumber(climb.ratio));
}

function stepsTo(values: Exclude<Ladder["values"], { kind: "list" }>, text: string): number {
  if (values.kind === "spans") {
    const span = readSpan(text);
    return span === undefined ? Number.NaN : along(values.from.count, values.by, span.count);
  }
  const tempo = parseDecimal(text);
  if (tempo === undefined) return Number.NaN;
  return values.kind === "tempi" ? along(values.from, values.by, tempo) : stepsBetween(values, tempo);
}

function climbed(from: Fraction, by: Fraction, steps: number): Fraction {
  return add(from, multiply(by, fraction(steps)));
}

/** Number of steps (a real number) from `from` to `value`; 0 on a ladder of one value, whose step is 0. */
function along(from: Fraction, by: Fraction, value: Fraction): number {
  return by.n === 0 ? 0 : (toNumber(value) - toNumber(from)) / toNumber(by);
}
