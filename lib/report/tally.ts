import type { DriftSpread } from "../schema/index.js";

/** How often each value came, the values rounded to `step`: what is kept of any number of silences stays small, and adds up exactly. */
export interface Tally {
  readonly step: number;
  /** Value in steps -> how often. */
  readonly times: Map<number, number>;
  count: number;
}

export function openTally(step: number): Tally {
  return { step, times: new Map(), count: 0 };
}

export function tally(into: Tally, value: number): void {
  const steps = Math.round(value / into.step) + 0;
  into.times.set(steps, (into.times.get(steps) ?? 0) + 1);
  into.count++;
}

/**
 * Median and quartiles of what was tallied; `undefined` when nothing was.
 *
 * Quantiles by linear interpolation between order statistics: Hyndman and Fan 1996, "Sample quantiles in statistical packages", definition 7.
 */
export function spreadOf({ step, times, count }: Tally): DriftSpread | undefined {
  if (count === 0) return undefined;
  const values = [...times].sort(([a], [b]) => a - b);
  const [low, median, high] = [0.25, 0.5, 0.75].map((share) => {
    const place = share * (count - 1);
    const below = valueAt(values, Math.floor(place));
    const above = valueAt(values, Math.ceil(place));
    // Steps of a tenth are no binary fractions: rounded so that they read as they are meant.
    return Number(((below + (place - Math.floor(place)) * (above - below)) * step).toFixed(2)) + 0;
  }) as [number, number, number];
  return { median, low, high };
}

/** The value at a place (from 0) among all in order. */
function valueAt(values: readonly (readonly [number, number])[], place: number): number {
  let passed = 0;
  for (const [value, times] of values) {
    passed += times;
    if (place < passed) return value;
  }
  throw new RangeError(`there is no value at place ${place}`);
}
