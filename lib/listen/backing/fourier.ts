import FFT from "fft.js";

/** Fourier transforms of one size; spectra are complex, interleaved (re, im), of 2 * size numbers. */
export interface Fourier {
  /** A power of two. */
  readonly size: number;
  /** The spectrum of real samples, bins 0 to size / 2; fewer samples than `size` are followed by zeros. */
  forward(samples: ArrayLike<number>): Float64Array;
  /** The real samples of a spectrum of which bins 0 to size / 2 are given; what lies above is overwritten with their mirror image. */
  inverse(spectrum: Float64Array): Float64Array;
}

/** Transforms of `size` points, a power of two. */
export function fourier(size: number): Fourier {
  const transform = new FFT(size);
  const input = new Float64Array(size);
  const turned = new Float64Array(2 * size);
  return {
    size,
    forward(samples) {
      input.fill(0);
      input.set(samples);
      const spectrum = new Float64Array(2 * size);
      transform.realTransform(spectrum, input);
      return spectrum;
    },
    inverse(spectrum) {
      transform.completeSpectrum(spectrum);
      transform.inverseTransform(turned, spectrum);
      return Float64Array.from({ length: size }, (_, i) => turned[2 * i]!);
    },
  };
}

/** The least power of two that is not below `count`. */
export function powerOfTwo(count: number): number {
  return 2 ** Math.ceil(Math.log2(Math.max(2, count)));
}

/** A raised cosine over `size` samples, periodic, so that halves that overlap add up to one. */
export function raisedCosine(size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / size));
}
