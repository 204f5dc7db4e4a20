import type { Counts } from "../progress/index.js";
import type { DriftQuartiles } from "../schema/index.js";

/** Histogram of values rounded to `step`. It stays small for any number of values, and histograms of the same step add up exactly. */
export interface Histogram {
  readonly step: number;
  /** Value in steps -> how often it came. */
  readonly times: Map<number, number>;
  count: number;
}

/** An empty histogram. */
export function openHistogram(step: number): Histogram {
  return { step, times: new Map(), count: 0 };
}

/** Adds counts of the same step, or another histogram of it. */
export function addTo(into: Histogram, counts: Counts | Histogram): void {
  for (const [place, times] of isHistogram(counts) ? counts.times : Object.entries(counts)) {
    const steps = Number(place);
    into.times.set(steps, (into.times.get(steps) ?? 0) + times);
    into.count += times;
  }
}

function isHistogram(counts: Counts | Histogram): counts is Histogram {
  return counts.times instanceof Map;
}

/**
 * Median and quartiles of the values; `undefined` of an empty histogram.
 *
 * Quantiles by linear interpolation between order statistics: Hyndman and Fan 1996, "Sample quantiles in statistical packages", definition 7.
 */
export function quartilesOf({ step, times, count }: Histogram): DriftQuartiles | undefined {
  if (count === 0) return undefined;
  const values = [...times].sort(([a], [b]) => a - b);
  const [low, median, high] = [0.25, 0.5, 0.75].map((share) => {
    const place = share * (count - 1);
    const below = valueAt(values, Math.floor(place));
    const above = valueAt(values, Math.ceil(place));
    // Tenths are no binary fractions: rounded, so that 0.3 is not 0.30000000000000004.
    return Number(((below + (place - Math.floor(place)) * (above - below)) * step).toFixed(2)) + 0;
  }) as [number, number, number];
  return { median, low, high };
}

/** Order statistic: the value at a place (from 0) among all values in order. */
function valueAt(values: readonly (readonly [number, number])[], place: number): number {
  let passed = 0;
  for (const [value, times] of values) {
    passed += times;
    if (place < passed) return value;
  }
  throw new RangeError(`there is no value at place ${place}`);
}
