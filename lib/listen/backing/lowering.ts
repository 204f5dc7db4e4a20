import type { Halving } from "../halve.js";
import { windowedSinc } from "./sincWeights.js";

/** Half of what is there passes at this share of the lower Nyquist frequency; at the frequency itself next to nothing does. */
export const PASSES = 0.84;

/** Our choice: what folds over lies 60 dB down (Kaiser 1974). */
const SHAPE = { crossings: 6, beta: 6 } as const;
/** Samples the filter reaches to either side: an even number of them. */
const REACH = 2 * Math.ceil(SHAPE.crossings / PASSES);
/** One side of the filter, the middle first; the middle of output sample n is input sample 2 n. */
const TAPS = Float64Array.from({ length: 1 + REACH }, (_, k) => (PASSES / 2) * windowedSinc((k * PASSES) / 2, SHAPE));

/**
 * Halves the rate of samples as they come, as `halving` does, and lets far less fold over: what folds over depends on where samples fall, and
 * could not be subtracted.
 */
export function lowering(): Halving {
  let waiting = new Float64Array(REACH);
  const push = (samples: Float32Array): Float32Array => {
    const all = new Float64Array(waiting.length + samples.length);
    all.set(waiting);
    all.set(samples, waiting.length);
    const count = Math.max(0, Math.floor((all.length - 2 * REACH + 1) / 2));
    const out = new Float32Array(count);
    for (let n = 0, middle = REACH; n < count; n++, middle += 2) {
      // Two sums at a time, as neither has to wait for the other.
      let near = TAPS[0]! * all[middle]!;
      let far = 0;
      for (let k = 1; k < REACH; k += 2) {
        near += TAPS[k]! * (all[middle - k]! + all[middle + k]!);
        far += TAPS[k + 1]! * (all[middle - k - 1]! + all[middle + k + 1]!);
      }
      out[n] = near + far;
    }
    waiting = all.slice(2 * count);
    return out;
  };
  return { push, finish: () => push(new Float32Array(REACH)) };
}

/** Several halvings of a rate, one after the other. */
export function halvedBy(halve: () => Halving, times: number): Halving {
  const stages = Array.from({ length: times }, halve);
  const push = (samples: Float32Array): Float32Array => stages.reduce((rest, stage) => stage.push(rest), samples);
  return {
    push,
    finish: () =>
      stages.reduce<Float32Array>((rest, stage) => {
        const last = stage.push(rest);
        const held = stage.finish();
        const both = new Float32Array(last.length + held.length);
        both.set(last);
        both.set(held, last.length);
        return both;
      }, new Float32Array(0)),
  };
}
