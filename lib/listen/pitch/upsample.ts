import { realFft } from "../signal/realFft.js";

/** Factor of upsampling. */
export const FINER = 4;

/** Upsamples the first quarter of a window of `size` samples by four (zero padding of its spectrum), to `size` samples. */
export function upsampledStart(size: number): (window: Float64Array) => Float64Array {
  const short = realFft(size / FINER);
  const long = realFft(size);
  return (window) => {
    const spectrum = short.forward(window.subarray(0, size / FINER));
    const wide = new Float64Array(size + 2);
    for (let k = 0; k < size / FINER; k++) wide[k] = FINER * spectrum[k]!;
    return long.inverse(wide);
  };
}
