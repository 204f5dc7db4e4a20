import type { Decimator } from "./decimator.js";
import { windowedSinc } from "./windowedSinc.js";

/** Half of what is there passes at this share of the lower Nyquist frequency; at the frequency itself next to nothing does. */
export const PASSES = 0.84;

/** Our choice: what folds over lies 60 dB down (Kaiser 1974). */
const SHAPE = { crossings: 6, beta: 6 } as const;
/** Samples the filter reaches to either side. */
const REACH = Math.ceil((2 * SHAPE.crossings) / PASSES);
/** One side of the filter, the middle first; the middle of output sample n is input sample 2 n. */
const TAPS = Float64Array.from({ length: 1 + REACH }, (_, k) => (PASSES / 2) * windowedSinc((k * PASSES) / 2, SHAPE));

/**
 * Halves the rate of samples as they come, as `halfBandDecimator` does, and lets far less fold over: what folds over depends on where samples fall, and
 * could not be subtracted.
 */
export function sincDecimator(): Decimator {
  let waiting = new Float64Array(REACH);
  const push = (samples: Float32Array): Float32Array => {
    const all = new Float64Array(waiting.length + samples.length);
    all.set(waiting);
    all.set(samples, waiting.length);
    const count = Math.max(0, Math.floor((all.length - 2 * REACH + 1) / 2));
    const out = new Float32Array(count);
    let n = 0;
    // Four at a time, so that each weight is read once for four and no sum waits for another.
    for (; n + 4 <= count; n += 4) {
      const middle = REACH + 2 * n;
      let [a, b, c, d] = [0, 0, 0, 0];
      for (let k = 1; k <= REACH; k++) {
        const weight = TAPS[k]!;
        const before = middle - k;
        const after = middle + k;
        a += weight * (all[before]! + all[after]!);
        b += weight * (all[before + 2]! + all[after + 2]!);
        c += weight * (all[before + 4]! + all[after + 4]!);
        d += weight * (all[before + 6]! + all[after + 6]!);
      }
      out[n] = a + TAPS[0]! * all[middle]!;
      out[n + 1] = b + TAPS[0]! * all[middle + 2]!;
      out[n + 2] = c + TAPS[0]! * all[middle + 4]!;
      out[n + 3] = d + TAPS[0]! * all[middle + 6]!;
    }
    for (; n < count; n++) {
      const middle = REACH + 2 * n;
      let sum = TAPS[0]! * all[middle]!;
      for (let k = 1; k <= REACH; k++) sum += TAPS[k]! * (all[middle - k]! + all[middle + k]!);
      out[n] = sum;
    }
    waiting = all.slice(2 * count);
    return out;
  };
  return { push, finish: () => push(new Float32Array(REACH)) };
}
