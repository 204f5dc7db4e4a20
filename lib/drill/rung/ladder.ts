import { add, type Fraction, fraction, multiply, toNumber } from "../../base/index.js";
import { decimalText, parseDecimal, parseSpan, spanText } from "../../time/index.js";
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

/** The step (from 0) at which a ladder has this canonical text; `undefined` when it never has. Lists are searched, progressions solved. */
export function ladderStep(ladder: Ladder, text: string): number | undefined {
  const { values } = ladder;
  if (values.kind === "list") {
    const k = values.texts.indexOf(text);
    return k < 0 ? undefined : k;
  }
  // Solved in floating point and confirmed on the exact text: near enough to find the step, whatever the text.
  const k = Math.round(stepsTo(values, text)) + 0;
  return [k, k - 1, k + 1].find((step) => step >= 0 && step < ladder.count && ladderValue(ladder, step) === text);
}

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

function stepsTo(values: Exclude<Ladder["values"], { kind: "list" }>, text: string): number {
  if (values.kind === "spans") {
    const span = parseSpan(text);
    return span.ok ? along(values.from.count, values.by, span.value.count) : Number.NaN;
  }
  const tempo = parseDecimal(text);
  if (tempo === undefined) return Number.NaN;
  return values.kind === "tempi" ? along(values.from, values.by, tempo) : stepsBetween(values, tempo);
}

function climbed(from: Fraction, by: Fraction, steps: number): Fraction {
  return add(from, multiply(by, fraction(steps)));
}

/** Steps from `from` to `value`; 0 on a ladder that stands still, which has one step. */
function along(from: Fraction, by: Fraction, value: Fraction): number {
  return by.n === 0 ? 0 : (toNumber(value) - toNumber(from)) / toNumber(by);
}
