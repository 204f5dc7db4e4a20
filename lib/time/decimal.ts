import { type Fraction, fraction } from "../base/index.js";

/** Decimals that are written: our choice, because a millionth of a beat per minute is not audible. */
const PLACES = 6;

/** Reads "96" or "92.5" exactly: at most nine digits before the point and six after it; `undefined` for anything else. */
export function parseDecimal(text: string): Fraction | undefined {
  const match = /^(-?\d{1,9})(?:\.(\d{1,6}))?$/.exec(text.trim());
  if (!match) return undefined;
  const places = match[2] ?? "";
  return fraction(Number(match[1] + places), 10 ** places.length);
}

/** The shortest decimal text of an exact value, rounded to six decimals: "96", "92.5", "33.333333". */
export function decimalText(value: Fraction): string {
  return String(Number((value.n / value.d).toFixed(PLACES)));
}
