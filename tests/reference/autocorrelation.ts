import type { Measure } from "../../lib/schema/index.js";
import { lineThrough, mean } from "../../lib/take/metrics/statistics.js";

/**
 * The lag-1 autocorrelation, from -1 to 1: sum of (y[i] - mean)(y[i+1] - mean) over the sum of (y[i] - mean)^2, as NIST defines it.
 *
 * Unmeasured when all values are the same; throws `RangeError` for fewer than two.
 */
export function lagOneAutocorrelation(values: ArrayLike<number>): Measure {
  const whole = autocovariance(values, 0);
  return whole === 0 ? { unmeasured: "all values are the same" } : autocovariance(values, 1) / whole;
}

/** The autocovariance at a lag, divided by n whatever the lag, the mean removed. Throws `RangeError` unless n is more than the lag and 1. */
export function autocovariance(values: ArrayLike<number>, lag: number): number {
  atLeast(Math.max(2, lag + 1), values.length);
  const centre = mean(values);
  let sum = 0;
  for (let i = 0; i + lag < values.length; i++) sum += (values[i]! - centre) * (values[i + lag]! - centre);
  return sum / values.length;
}

/** What is left of a series when the straight line through it (against the index) is taken out. */
export function detrended(values: ArrayLike<number>): Float64Array {
  const { slope, intercept } = lineThrough(
    Array.from(values, (_, i) => i),
    values,
  );
  return Float64Array.from(values, (value, i) => value - intercept - slope * i);
}

function atLeast(least: number, count: number): void {
  if (count < least) throw new RangeError(`this takes ${least} values at least, got ${count}`);
}
