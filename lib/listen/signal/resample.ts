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
