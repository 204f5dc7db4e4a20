import type { RehearsalQuantiles } from "../../schema/index.js";
import type { Counts } from "./tally.js";

/**
 * The least value that a share of `n` students had at most: the inverse of the distribution of the sample (Hyndman & Fan 1996, definition 1), exact for any number of
 * students. Students who are not in the counts had more than any value; `undefined` where the share is not reached by those who are, and without students.
 *
 * @param share above 0, at most 1
 */
export function quantileOf(counts: Counts, n: number, share: number): number | undefined {
  if (n === 0) return undefined;
  // A product such as 0.1 × 30 is off by rounding: what is reached to within that is reached.
  const wanted = share * n - 1e-9 * n;
  let below = 0;
  for (const [value, times] of [...counts].sort(([a], [b]) => a - b)) {
    below += times;
    if (below >= wanted) return value;
  }
  return undefined;
}

/** Median and the middle eight tenths of `n` students, in `unit`s of the counts, to a tenth; what so many never came to is left out. */
export function quantilesOf(counts: Counts, n: number, unit = 1): RehearsalQuantiles {
  const at = (name: string, share: number): object => {
    const value = quantileOf(counts, n, share);
    return value === undefined ? {} : { [name]: Math.round((10 * value) / unit) / 10 };
  };
  return { ...at("low", 0.1), ...at("median", 0.5), ...at("high", 0.9) };
}
