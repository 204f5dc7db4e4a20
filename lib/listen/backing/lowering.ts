import { type Halving } from "../halve.js";
import { lowPass } from "./sincWeights.js";

/** Half of what is there passes at this share of the lower Nyquist frequency; at the frequency itself next to nothing does. */
export const PASSES = 0.84;

/** One side of the filter, the middle first; the middle of output sample n is input sample 2 n. */
const TAPS = lowPass(PASSES / 2);
const REACH = TAPS.length - 1;

/**
 * Halves the rate of samples as they come, as `halving` does, and lets far less fold over: what folds over depends on where samples fall, and
 * could not be subtracted.
 */
export function lowering(): Halving {
  let waiting = new Float32Array(REACH);
  const push = (samples: Float32Array): Float32Array => {
    const all = new Float32Array(waiting.length + samples.length);
    all.set(waiting);
    all.set(samples, waiting.length);
    const count = Math.max(0, Math.floor((all.length - 2 * REACH + 1) / 2));
    const out = new Float32Array(count);
    for (let n = 0, middle = REACH; n < count; n++, middle += 2) {
      let sum = TAPS[0]! * all[middle]!;
      for (let k = 1; k <= REACH; k++) sum += TAPS[k]! * (all[middle - k]! + all[middle + k]!);
      out[n] = sum;
    }
    waiting = all.slice(2 * count);
    return out;
  };
  return { push, finish: () => push(new Float32Array(REACH)) };
}

/** Several halvings of a rate, one after the other. */
export function lowerings(count: number): Halving {
  const stages = Array.from({ length: count }, lowering);
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
