/** An exact rational number `n / d` in lowest terms, `d > 0`. Musical positions and lengths are fractions of a whole note. */
export interface Fraction {
  readonly n: number;
  readonly d: number;
}

/**
 * The reduced fraction `n / d`. Throws `RangeError` when `d` is 0 or the result is not exact below 2^53.
 *
 * @example
 * fraction.of(6, 8) // { n: 3, d: 4 }
 */
export function fraction(n: number, d = 1): Fraction {
  if (!Number.isSafeInteger(n) || !Number.isSafeInteger(d) || d === 0) {
    throw new RangeError(`a fraction needs whole numbers below 2^53 and a divisor other than 0, got ${n}/${d}`);
  }
  const divisor = gcd(Math.abs(n), Math.abs(d)) * Math.sign(d);
  return { n: n / divisor + 0, d: d / divisor };
}

/** The fraction 0. */
export const ZERO: Fraction = { n: 0, d: 1 };
/** The fraction 1. */
export const ONE: Fraction = { n: 1, d: 1 };

/**
 * The exact sum.
 *
 * @example
 * fraction.text(fraction.add(fraction.of(1, 4), fraction.of(1, 8))) // "3/8"
 */
export function add(a: Fraction, b: Fraction): Fraction {
  if (a.d === b.d) return fraction(a.n + b.n, a.d);
  const shared = gcd(a.d, b.d);
  return fraction(a.n * (b.d / shared) + b.n * (a.d / shared), a.d * (b.d / shared));
}

/**
 * The same distance on the other side of 0.
 *
 * @example
 * fraction.text(fraction.negate(fraction.of(3, 8))) // "-3/8"
 */
export function negate(a: Fraction): Fraction {
  return { n: 0 - a.n, d: a.d };
}

/**
 * The exact difference `a - b`.
 *
 * @example
 * fraction.text(fraction.subtract(fraction.of(1, 2), fraction.of(3, 8))) // "1/8"
 */
export function subtract(a: Fraction, b: Fraction): Fraction {
  return add(a, negate(b));
}

/**
 * The exact product.
 *
 * @example
 * fraction.text(fraction.multiply(fraction.of(3, 4), fraction.of(2))) // "3/2"
 */
export function multiply(a: Fraction, b: Fraction): Fraction {
  const left = gcd(Math.abs(a.n), b.d) || 1;
  const right = gcd(Math.abs(b.n), a.d) || 1;
  return fraction((a.n / left) * (b.n / right), (a.d / right) * (b.d / left));
}

/**
 * `a / b`. Throws `RangeError` when `b` is zero.
 *
 * @example
 * fraction.text(fraction.divide(fraction.of(3, 4), fraction.of(1, 8))) // "6"
 */
export function divide(a: Fraction, b: Fraction): Fraction {
  if (b.n === 0) throw new RangeError(`cannot divide ${fractionText(a)} by zero`);
  return multiply(a, b.n < 0 ? { n: -b.d, d: -b.n } : { n: b.d, d: b.n });
}

/**
 * Negative when `a < b`, 0 when equal, positive when `a > b`; exact.
 *
 * @example
 * fraction.compare(fraction.of(1, 3), fraction.of(1, 4)) > 0 // true
 */
export function compare(a: Fraction, b: Fraction): number {
  const left = a.n * b.d;
  const right = b.n * a.d;
  // Small numbers need not be reduced, and nearly all are.
  return Number.isSafeInteger(left) && Number.isSafeInteger(right) ? left - right : subtract(a, b).n;
}

/**
 * Whether two fractions are the same number; both are in lowest terms.
 *
 * @example
 * fraction.equals(fraction.of(2, 4), fraction.of(1, 2)) // true
 */
export function equals(a: Fraction, b: Fraction): boolean {
  return a.n === b.n && a.d === b.d;
}

/**
 * The largest whole number not above `a`.
 *
 * @example
 * fraction.floor(fraction.of(-1, 2)) // -1
 */
export function floor(a: Fraction): number {
  return Math.floor(a.n / a.d);
}

/**
 * The nearest floating-point number, for seconds and pixels; not for further musical time.
 *
 * @example
 * fraction.toNumber(fraction.of(3, 8)) // 0.375
 */
export function toNumber(a: Fraction): number {
  return a.n / a.d;
}

/**
 * "3", "5/16", "-1/8": the shortest exact text, read back by `parseFraction`.
 *
 * @example
 * fraction.text(fraction.of(10, 32)) // "5/16"
 */
export function fractionText(a: Fraction): string {
  return a.d === 1 ? `${a.n}` : `${a.n}/${a.d}`;
}

/**
 * Reads "3", "-1/8" or "1 1/2" (a whole number and a fraction); `undefined` for anything else, also for a divisor of 0.
 *
 * @example
 * fraction.parse("1 1/2") // { n: 3, d: 2 }
 */
export function parseFraction(text: string): Fraction | undefined {
  const match = /^(-?)(?:(\d{1,9}) )?(\d{1,9})(?:\/(\d{1,9}))?$/.exec(text.trim());
  if (!match) return undefined;
  const [, sign, whole, upper, lower] = match;
  if (whole !== undefined && lower === undefined) return undefined;
  if (lower !== undefined && Number(lower) === 0) return undefined;
  const magnitude = add(fraction(Number(whole ?? 0)), fraction(Number(upper), Number(lower ?? 1)));
  return sign ? negate(magnitude) : magnitude;
}

/**
 * The greatest common divisor of two non-negative whole numbers.
 *
 * @example
 * fraction.gcd(12, 8) // 4
 */
export function gcd(a: number, b: number): number {
  let x = a;
  let y = b;
  while (y !== 0) {
    const rest = x % y;
    x = y;
    y = rest;
  }
  return x;
}
