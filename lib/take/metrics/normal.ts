/**
 * Standard normal distribution function, error below 1e-7.
 * Abramowitz & Stegun 1964, Handbook of Mathematical Functions, 26.2.17 (coefficients from memory; the tests compare with a statistics library).
 */
export function normalBelow(z: number): number {
  if (z < 0) return 1 - normalBelow(-z);
  const t = 1 / (1 + 0.2316419 * z);
  const series = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return 1 - (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * series;
}

/** Probability that a normal value lies within `limit` of 0, either way. */
export function normalWithin(limit: number, mean: number, sd: number): number {
  if (sd === 0) return Math.abs(mean) <= limit ? 1 : 0;
  return Math.max(0, normalBelow((limit - mean) / sd) - normalBelow((-limit - mean) / sd));
}
