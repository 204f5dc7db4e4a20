import { peaksByStretch, STRETCH } from "./truePeak.js";

/** Time over which the gain goes down before a peak and comes back after it, seconds: our choice, longer than a wave of the bass and shorter than a sixteenth. */
const REACH = 0.02;

/**
 * Turns a mix down around its peaks, in place, so that its true peak is at most `ceiling` (linear). The gain is the same for all channels, falls
 * before a peak as it rises after it, and delays nothing: a note begins on the sample on which it began. What is nowhere near a peak, and silence,
 * is not changed.
 *
 * The gain at a time is the mean, over a window, of the lowest gain needed within a window: nowhere above what a peak needs.
 */
export function limit(channels: readonly Float32Array[], { rate, ceiling }: { rate: number; ceiling: number }): void {
  const peaks = peaksByStretch(channels, ceiling);
  if (!peaks.some((peak) => peak > ceiling)) return;
  const reach = Math.max(1, Math.round((REACH * rate) / STRETCH));
  // One stretch more on either side, for the line between two means.
  const lowest = slidingLeast(
    peaks.map((peak) => (peak > ceiling ? ceiling / peak : 1)),
    reach + 1,
  );
  const gains = slidingMean(lowest, reach);
  for (const channel of channels) {
    for (let i = 0; i < gains.length; i++) {
      const [before, here, after] = [gains[Math.max(0, i - 1)]!, gains[i]!, gains[Math.min(gains.length - 1, i + 1)]!];
      if (before === 1 && here === 1 && after === 1) continue;
      const end = Math.min(STRETCH, channel.length - i * STRETCH);
      for (let j = 0; j < end; j++) {
        // Gains stand at the middles of their stretches.
        const place = (j + 0.5) / STRETCH - 0.5;
        const gain = place < 0 ? here + (before - here) * -place : here + (after - here) * place;
        channel[i * STRETCH + j]! *= gain;
      }
    }
  }
}

/** The least value within `reach` places of each. */
function slidingLeast(values: Float64Array, reach: number): Float64Array {
  const least = new Float64Array(values.length).fill(1);
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value === 1) continue;
    const end = Math.min(values.length - 1, i + reach);
    for (let j = Math.max(0, i - reach); j <= end; j++) if (value < least[j]!) least[j] = value;
  }
  return least;
}

/** The mean of the values within `reach` places of each; the ends go on as they are. */
function slidingMean(values: Float64Array, reach: number): Float64Array {
  const means = new Float64Array(values.length).fill(1);
  const at = (i: number): number => values[Math.min(values.length - 1, Math.max(0, i))]!;
  const width = 2 * reach + 1;
  let low = 0;
  for (let i = -reach; i <= reach; i++) low += 1 - at(i);
  // Sums of what is missing to 1, so that a place far from any peak comes out as 1 exactly.
  let near = 0;
  for (let i = -reach; i <= reach; i++) near += at(i) < 1 ? 1 : 0;
  for (let i = 0; i < values.length; i++) {
    if (near > 0) means[i] = 1 - low / width;
    else low = 0;
    low += at(i - reach) - at(i + reach + 1);
    near += (at(i + reach + 1) < 1 ? 1 : 0) - (at(i - reach) < 1 ? 1 : 0);
  }
  return means;
}
