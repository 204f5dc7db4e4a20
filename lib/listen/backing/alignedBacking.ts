import { resampled, stretchFor } from "../signal/resample.js";
import type { SoundReader } from "../signal/soundReader.js";

/** Where a backing starts in a recording and how its clock differs, as `findBacking` gives it. */
export interface Alignment {
  /** Seconds of the recording. */
  readonly start: number;
  /** Parts per million; positive: the backing lasts longer on the clock of the recording. */
  readonly skewPpm: number;
}

/** The backing resampled to the clock and rate of the recording: `count` samples from sample `from` of the recording on. */
export function alignedBacking(
  backing: SoundReader,
  { start, skewPpm, rate }: Alignment & { readonly rate: number },
): (from: number, count: number) => Promise<Float64Array> {
  const step = backing.rate / rate / (1 + skewPpm * 1e-6);
  return async (from, count) => {
    const places = { from: (from - start * rate) * step, step, count };
    const { first, length } = stretchFor(places);
    return resampled(await backing.read(first, length), places);
  };
}
