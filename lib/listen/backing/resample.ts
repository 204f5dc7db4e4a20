import type { SoundReader } from "./reader.js";

// Our choice: 8 zero crossings on each side under a Kaiser window of beta 7 keep images below -70 dB, less than what a phone hisses.
const CROSSINGS = 8;
const BETA = 7;
const STEPS = 512;
/** Half of what is there passes at this share of the lower Nyquist frequency; at the frequency itself next to nothing does. */
const PASSES = 0.84;

const kernel = makeKernel();

/** Samples of a recording at places of its own: `count` of them, the first at `from` (in samples, fractional), `step` apart. */
export async function resampled(
  reader: SoundReader,
  { from, step, count }: { readonly from: number; readonly step: number; readonly count: number },
): Promise<Float64Array> {
  const cutoff = Math.min(1, 1 / step) * (step > 1.001 ? PASSES : 1);
  const reach = Math.ceil(CROSSINGS / cutoff);
  const first = Math.floor(from) - reach;
  const source = await reader.read(first, Math.ceil(step * count) + 2 * reach + 2);
  const out = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const place = from + step * i - first;
    const low = Math.max(0, Math.ceil(place - CROSSINGS / cutoff));
    const high = Math.min(source.length - 1, Math.floor(place + CROSSINGS / cutoff));
    let sum = 0;
    for (let k = low; k <= high; k++) {
      const distance = Math.abs(place - k) * cutoff * STEPS;
      const cell = distance | 0;
      const share = distance - cell;
      sum += source[k]! * (kernel[cell]! + share * (kernel[cell + 1]! - kernel[cell]!));
    }
    out[i] = sum * cutoff;
  }
  return out;
}

/** Half of a sinc under a Kaiser window (Kaiser 1974), `STEPS` places for each zero crossing. */
function makeKernel(): Float64Array {
  const all = besselI0(BETA);
  return Float64Array.from({ length: CROSSINGS * STEPS + 2 }, (_, i) => {
    const x = i / STEPS;
    const inside = 1 - (x / CROSSINGS) ** 2;
    if (inside <= 0) return 0;
    const sinc = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    return (sinc * besselI0(BETA * Math.sqrt(inside))) / all;
  });
}

/** The modified Bessel function of the first kind and order 0, by its power series. */
function besselI0(x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; term > 1e-17 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
