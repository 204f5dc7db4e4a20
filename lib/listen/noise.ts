import type { Attack } from "./families.js";
import type { HeardOnset } from "./onsets.js";

/** Standard deviation of the time of an onset, ms: the steeper and clearer it is, the stronger its flux and the better it is timed. */
export function noiseMsOf(strength: number, { noise }: Pick<Attack, "noise">): number {
  return noise.ms * Math.max(1, strength) ** -noise.falls;
}

/** Root mean square of the onsets' noises; 0 without onsets. */
export function wholeNoiseMs(onsets: readonly HeardOnset[]): number {
  if (onsets.length === 0) return 0;
  return Math.sqrt(onsets.reduce((sum, { noiseMs }) => sum + noiseMs ** 2, 0) / onsets.length);
}
