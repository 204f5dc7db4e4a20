import { realFft } from "../signal/realFft.js";

/** How many times finer the samples get. */
export const FINER = 4;

/** The first quarter of a window of `size` samples, four samples for each, by filling its spectrum up with zeros: as many samples again. */
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
