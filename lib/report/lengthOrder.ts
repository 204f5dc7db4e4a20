import { toNumber } from "../base/index.js";
import { meterOf, parseSpan, resolveSpan } from "../time/index.js";

/** Lengths of different units are put in order as if in 4/4; only their order rests on it. */
const COMMON = meterOf([4], 4);

/** Compares lengths of silences such as "1/2 bar" and "3 beats", shortest first; unknown ones come last. */
export function compareLengths(a: string | undefined, b: string | undefined): number {
  const [left, right] = [wholeNotes(a), wholeNotes(b)];
  if (left !== right) return left < right ? -1 : 1;
  const [one, other] = [a ?? "", b ?? ""];
  return one < other ? -1 : one > other ? 1 : 0;
}

function wholeNotes(length: string | undefined): number {
  const span = length === undefined ? undefined : parseSpan(length);
  return span?.ok ? toNumber(resolveSpan(span.value, COMMON)) : Number.POSITIVE_INFINITY;
}
