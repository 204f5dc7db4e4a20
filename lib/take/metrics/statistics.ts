/** A straight line y = intercept + slope x. */
export interface Line {
  readonly slope: number;
  readonly intercept: number;
}

/**
 * The arithmetic mean, of any unit; the second pass takes back what rounding lost in the first.
 *
 * Throws `RangeError` for an empty list.
 */
export function mean(values: ArrayLike<number>): number {
  atLeast(1, values.length);
  const rough = sumOver(values, (value) => value) / values.length;
  const better = rough + sumOver(values, (value) => value - rough) / values.length;
  // Rounding must not carry it past all values: those that are all the same have exactly their own mean.
  let [least, most] = [values[0]!, values[0]!];
  for (let i = 1; i < values.length; i++) {
    least = Math.min(least, values[i]!);
    most = Math.max(most, values[i]!);
  }
  return Math.min(most, Math.max(least, better));
}

/** The middle value, or the mean of the two in the middle; NaN of an empty list. */
export function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length / 2;
  return sorted.length % 2 === 1 ? sorted[Math.floor(middle)]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** A standard deviation that few strange values do not move: 1.4826 (a normal distribution's SD over its median absolute deviation) times the latter. */
export function robustDeviation(values: readonly number[]): number {
  const centre = median(values);
  return 1.4826 * median(values.map((value) => Math.abs(value - centre)));
}

/**
 * The sample standard deviation (divided by n - 1), in two passes with the rounding of the mean taken out.
 *
 * Chan, Golub & LeVeque 1983, "Algorithms for computing the sample variance", Am. Stat. 37, 242-247 (from memory). Throws `RangeError` for
 * fewer than two values.
 */
export function standardDeviation(values: ArrayLike<number>): number {
  atLeast(2, values.length);
  const centre = mean(values);
  const left = sumOver(values, (value) => value - centre);
  const squares = sumOver(values, (value) => (value - centre) ** 2);
  return Math.sqrt(Math.max(0, squares - left ** 2 / values.length) / (values.length - 1));
}

/**
 * The least-squares line through points (x, y), from sums around the means.
 *
 * Throws `RangeError` when the lists differ in length or the points do not lie at two places of x at least.
 */
export function lineThrough(x: ArrayLike<number>, y: ArrayLike<number>): Line {
  if (x.length !== y.length) throw new RangeError(`${x.length} values of x cannot go with ${y.length} of y`);
  atLeast(2, x.length);
  const centre = mean(x);
  const height = mean(y);
  const across = sumOver(x, (value) => (value - centre) ** 2);
  if (across === 0) throw new RangeError("a line needs points at two places of x at least");
  const slope = sumOver(x, (value, i) => (value - centre) * (y[i]! - height)) / across;
  return { slope, intercept: height - slope * centre };
}

/** A sum that keeps what rounding drops (Neumaier 1974, Z. angew. Math. Mech. 54, 39-51: from memory). */
function sumOver(values: ArrayLike<number>, term: (value: number, index: number) => number): number {
  let sum = 0;
  let dropped = 0;
  for (let i = 0; i < values.length; i++) {
    const next = term(values[i]!, i);
    const total = sum + next;
    dropped += Math.abs(sum) >= Math.abs(next) ? sum - total + next : next - total + sum;
    sum = total;
  }
  return sum + dropped;
}

function atLeast(least: number, count: number): void {
  if (count < least)
    throw new RangeError(`this takes ${least} ${least === 1 ? "value" : "values"} at least, got ${count}`);
}
