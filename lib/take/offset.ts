import type { Reading } from "./reading.js";

/** The player's constant offset while accompanied, and its standard error, ms. */
export interface Offset {
  readonly mean: number;
  readonly sd: number;
}

export function offsetOf({ fit }: Reading): Offset {
  let mean = 0;
  for (const { weight, passed } of fit.points) mean += weight * passed.offset;
  let variance = 0;
  for (const { weight, passed } of fit.points)
    variance += weight * (passed.offsetVariance + (passed.offset - mean) ** 2);
  return { mean, sd: Math.sqrt(variance) };
}
