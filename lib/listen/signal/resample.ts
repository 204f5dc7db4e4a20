import { PASSES } from "./sincDecimator.js";
import { sincWeights } from "./windowedSinc.js";

/** Steps so near to 1 need no low pass: nothing folds over but what lies at the very top. */
const ALIKE = 1.001;

/** Where samples of their own are taken from a sound: `count` of them, the first at `from` (in samples, fractional), `step` apart. */
export interface Places {
  readonly from: number;
  readonly step: number;
  readonly count: number;
}

/** The stretch of a sound that is needed to resample it there. */
export function stretchFor({ from, step, count }: Places): { readonly first: number; readonly length: number } {
  const { reach } = weightsFor(step);
  return { first: Math.floor(from) - reach, length: Math.ceil(step * count) + 2 * reach + 2 };
}

/** Samples at places of their own, by windowed sincs, from the stretch of the sound that `stretchFor` names. */
export function resampled(stretch: Float64Array, places: Places): Float64Array {
  const { from, step, count } = places;
  const { reach, phases, rows } = weightsFor(step);
  const { first } = stretchFor(places);
  const width = 2 * reach;
  const out = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const place = from + step * i - first;
    const near = Math.round(place * phases);
    const begin = Math.floor(near / phases) - reach + 1;
    const row = (near % phases) * width;
    // Two sums at a time, as neither has to wait for the other.
    let even = 0;
    let odd = 0;
    for (let k = 0; k < width; k += 2) {
      even += stretch[begin + k]! * rows[row + k]!;
      odd += stretch[begin + k + 1]! * rows[row + k + 1]!;
    }
    out[i] = even + odd;
  }
  return out;
}

function weightsFor(step: number): ReturnType<typeof sincWeights> {
  return sincWeights(step > ALIKE ? PASSES / step : 1);
}

/** A whole sound at another rate; as long in seconds, to the sample. Silence lies around it. */
export function resampledTo(samples: Float32Array, from: number, to: number): Float32Array<ArrayBuffer> {
  const places = { from: 0, step: from / to, count: Math.round((samples.length * to) / from) };
  const { first, length } = stretchFor(places);
  const stretch = new Float64Array(length);
  const last = Math.min(samples.length, first + length);
  stretch.set(samples.subarray(0, last), -first);
  return Float32Array.from(resampled(stretch, places));
}
