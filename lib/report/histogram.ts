import type { Counts } from "../progress/index.js";
import type { DriftQuartiles } from "../schema/index.js";

/**
 * Median and quartiles of values that were counted in bins of `step`; `undefined` of none.
 *
 * Quantiles by linear interpolation between order statistics: Hyndman and Fan 1996, "Sample quantiles in statistical packages", definition 7.
 */
export function quartilesOf(counts: Counts, step: number): DriftQuartiles | undefined {
  const count = countIn(counts);
  if (count === 0) return undefined;
  const [low, median, high] = [0.25, 0.5, 0.75].map((share) => {
    const place = share * (count - 1);
    const below = valueAt(counts, Math.floor(place));
    const above = valueAt(counts, Math.ceil(place));
    // Tenths are no binary fractions: rounded, so that 0.3 is not 0.30000000000000004.
    return Number(((below + (place - Math.floor(place)) * (above - below)) * step).toFixed(2)) + 0;
  }) as [number, number, number];
  return { median, low, high };
}

/** How many values were counted. */
export function countIn(counts: Counts): number {
  let count = 0;
  for (let i = 1; i < counts.length; i += 2) count += counts[i]!;
  return count;
}

/** Order statistic: the value at a place (from 0) among all values in order. */
function valueAt(counts: Counts, place: number): number {
  let passed = 0;
  for (let i = 0; i < counts.length; i += 2) {
    passed += counts[i + 1]!;
    if (place < passed) return counts[i]!;
  }
  throw new RangeError(`there is no value at place ${place}`);
}
