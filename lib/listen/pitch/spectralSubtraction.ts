import { hann } from "../signal/magnitudeSpectra.js";
import { realFft } from "../signal/realFft.js";

/** A note that leaves less than this share of the power when what rang before is taken away is the same note again; our choice. */
const SAME_AGAIN = 0.1;
/** One that leaves more than this is nearly alone, and better left as it is: the raised cosine hides the turns of low notes. Our choice. */
const ALONE = 0.95;
/** Factor of oversubtraction, as power: phases differ between the two windows. Our choice. */
const TAKEN = 2;

/**
 * Spectral subtraction (Boll 1979): each frequency of a window loses the power it had in an earlier window of the same length. The result is the
 * window itself where nearly all or almost nothing would be left.
 */
export function spectralSubtraction(size: number): (before: Float64Array) => (window: Float64Array) => Float64Array {
  const transform = realFft(size);
  const shape = hann(size);
  const shaped = new Float64Array(size);
  const now = new Float64Array(size + 2);
  const spectrumOf = (samples: Float64Array, into: Float64Array): void => {
    for (let i = 0; i < size; i++) shaped[i] = samples[i]! * shape[i]!;
    transform.forward(shaped, into);
  };
  return (before) => {
    const then = new Float64Array(size + 2);
    spectrumOf(before, then);
    return (window) => {
      spectrumOf(window, now);
      let power = 0;
      let left = 0;
      for (let k = 0; k <= size; k += 2) {
        const here = now[k]! ** 2 + now[k + 1]! ** 2;
        const rest = Math.max(0, here - TAKEN * (then[k]! ** 2 + then[k + 1]! ** 2));
        power += here;
        left += rest;
        const gain = here > 0 ? Math.sqrt(rest / here) : 0;
        now[k]! *= gain;
        now[k + 1]! *= gain;
      }
      return left < SAME_AGAIN * power || left > ALONE * power ? window : transform.inverse(now);
    };
  };
}
