/** Half of the odd-numbered weights of a half-band low pass of 15 taps: a sinc under a Blackman window; the one in the middle is 1/2. */
const SIDE = [1, 3, 5, 7].map((k) => {
  const angle = (Math.PI * (k + 8)) / 8;
  const window = 0.42 - 0.5 * Math.cos(angle) + 0.08 * Math.cos(2 * angle);
  return (window * Math.sin((Math.PI * k) / 2)) / (Math.PI * k);
}) as [number, number, number, number];
/** So that nothing is made louder at 0 Hz. */
const SCALE = 1 / (0.5 + 2 * SIDE.reduce((sum, weight) => sum + weight, 0));
const [A, B, C, D] = SIDE.map((weight) => weight * SCALE) as [number, number, number, number];
const MIDDLE = 0.5 * SCALE;
/** Samples the filter reaches to either side. */
const REACH = 7;

/** Halves the rate of samples as they come; the middle of output sample n is input sample 2 n. Ends with what `finish` gives. */
export interface Decimator {
  readonly push: (samples: Float32Array) => Float32Array;
  readonly finish: () => Float32Array;
}

/**
 * Every other sample of what a low pass leaves. What lies within a sixth of the new rate's half below its top folds over by up to a few
 * tenths, which does no harm to a rise in a spectrum.
 */
export function halfBandDecimator(): Decimator {
  let waiting = new Float32Array(REACH);
  const push = (samples: Float32Array): Float32Array => {
    const all = new Float32Array(waiting.length + samples.length);
    all.set(waiting);
    all.set(samples, waiting.length);
    const count = Math.max(0, Math.floor((all.length - 2 * REACH + 1) / 2));
    const out = new Float32Array(count);
    for (let n = 0, i = REACH; n < count; n++, i += 2) {
      out[n] =
        MIDDLE * all[i]! +
        A * (all[i - 1]! + all[i + 1]!) +
        B * (all[i - 3]! + all[i + 3]!) +
        C * (all[i - 5]! + all[i + 5]!) +
        D * (all[i - 7]! + all[i + 7]!);
    }
    waiting = all.slice(2 * count);
    return out;
  };
  return { push, finish: () => push(new Float32Array(REACH)) };
}

/** Several halvings of a rate, one after the other. */
export function cascade(halve: () => Decimator, times: number): Decimator {
  const stages = Array.from({ length: times }, halve);
  const push = (samples: Float32Array): Float32Array => stages.reduce((rest, stage) => stage.push(rest), samples);
  return {
    push,
    finish: () =>
      stages.reduce<Float32Array>((rest, stage) => {
        const last = stage.push(rest);
        return joined(last, stage.finish());
      }, new Float32Array(0)),
  };
}

/** One stretch of samples after another. */
export function joined(one: Float32Array, other: Float32Array): Float32Array {
  const both = new Float32Array(one.length + other.length);
  both.set(one);
  both.set(other, one.length);
  return both;
}
