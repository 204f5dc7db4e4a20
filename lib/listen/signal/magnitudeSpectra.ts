import FFT from "fft.js";
import type { SpectrumShape } from "./spectrumShape.js";

/** Takes magnitude spectra of two stretches of samples at a time. */
export type PairOfSpectra = (
  samples: Float32Array,
  from: readonly [number, number],
  magnitudes: readonly [Float32Array, Float32Array],
) => void;

/**
 * Magnitude spectra under a Hann window, two by one complex transform: one stretch is its real part, the other its imaginary part, and the
 * symmetry of real signals takes their spectra apart (a standard identity, e.g. Press et al., Numerical Recipes, "FFT of two real functions").
 */
export function pairOfSpectra({ size }: Pick<SpectrumShape, "size">): PairOfSpectra {
  const transform = new FFT(size);
  const window = hann(size);
  const data = new Float64Array(2 * size);
  const out = new Float64Array(2 * size);
  // A full-scale sine has 1 in its bin: the window's sum is size / 2, half of it for each of the two frequencies of a real sine. The
  // separation of the two signals brings another half.
  const scale = 2 / size;
  return (samples, [first, second], [a, b]) => {
    for (let i = 0; i < size; i++) {
      data[2 * i] = window[i]! * samples[first + i]!;
      data[2 * i + 1] = window[i]! * samples[second + i]!;
    }
    transform.transform(out, data);
    a[0] = scale * Math.abs(2 * out[0]!);
    b[0] = scale * Math.abs(2 * out[1]!);
    for (let k = 1, j = 2 * size - 2; k < size / 2; k++, j -= 2) {
      const real = out[2 * k]!;
      const imaginary = out[2 * k + 1]!;
      const mirrorReal = out[j]!;
      const mirrorImaginary = out[j + 1]!;
      const evenReal = real + mirrorReal;
      const evenImaginary = imaginary - mirrorImaginary;
      const oddReal = imaginary + mirrorImaginary;
      const oddImaginary = mirrorReal - real;
      a[k] = scale * Math.sqrt(evenReal * evenReal + evenImaginary * evenImaginary);
      b[k] = scale * Math.sqrt(oddReal * oddReal + oddImaginary * oddImaginary);
    }
  };
}

/** A Hann window over `size` samples, periodic, so that halves that overlap add up to one. */
export function hann(size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / size));
}
