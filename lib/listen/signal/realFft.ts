import FFT from "fft.js";

/** Fourier transforms of real samples, of one size; a spectrum is complex, interleaved (re, im), bins 0 to size / 2: size + 2 numbers. */
export interface RealFft {
  /** A power of two, 4 or more. */
  readonly size: number;
  /** The spectrum of samples, `into` an array where one is given; fewer samples than `size` are followed by zeros. */
  forward(samples: ArrayLike<number>, into?: Float64Array): Float64Array;
  /** The samples of a spectrum, `into` an array where one is given. */
  inverse(spectrum: Float64Array, into?: Float64Array): Float64Array;
}

/**
 * Transforms of `size` points, a power of two, by complex ones of half the size: samples of even number are the real part, of odd number the
 * imaginary part (a standard identity, e.g. Press et al., Numerical Recipes, "FFT of single real function").
 */
export function realFft(size: number): RealFft {
  const half = size / 2;
  const transform = new FFT(half);
  const input = new Float64Array(size);
  const turned = new Float64Array(size);
  const cosine = Float64Array.from({ length: half + 1 }, (_, k) => Math.cos((2 * Math.PI * k) / size));
  const sine = Float64Array.from({ length: half + 1 }, (_, k) => Math.sin((2 * Math.PI * k) / size));
  return {
    size,
    forward(samples, into = new Float64Array(size + 2)) {
      input.set(samples);
      if (samples.length < size) input.fill(0, samples.length);
      transform.transform(turned, input);
      into[0] = turned[0]! + turned[1]!;
      into[1] = 0;
      into[size] = turned[0]! - turned[1]!;
      into[size + 1] = 0;
      for (let k = 1, i = 2, j = size - 2; k < half; k++, i += 2, j -= 2) {
        const evenRe = 0.5 * (turned[i]! + turned[j]!);
        const evenIm = 0.5 * (turned[i + 1]! - turned[j + 1]!);
        const oddRe = 0.5 * (turned[i + 1]! + turned[j + 1]!);
        const oddIm = 0.5 * (turned[j]! - turned[i]!);
        into[i] = evenRe + cosine[k]! * oddRe + sine[k]! * oddIm;
        into[i + 1] = evenIm + cosine[k]! * oddIm - sine[k]! * oddRe;
      }
      return into;
    },
    inverse(spectrum, into = new Float64Array(size)) {
      for (let k = 0, i = 0, j = size; k < half; k++, i += 2, j -= 2) {
        const evenRe = 0.5 * (spectrum[i]! + spectrum[j]!);
        const evenIm = 0.5 * (spectrum[i + 1]! - spectrum[j + 1]!);
        const re = 0.5 * (spectrum[i]! - spectrum[j]!);
        const im = 0.5 * (spectrum[i + 1]! + spectrum[j + 1]!);
        const oddRe = cosine[k]! * re - sine[k]! * im;
        const oddIm = cosine[k]! * im + sine[k]! * re;
        input[i] = evenRe - oddIm;
        input[i + 1] = evenIm + oddRe;
      }
      transform.inverseTransform(into, input);
      return into;
    },
  };
}

/** The least power of two that is not below `count`, and 4 at least. */
export function powerOfTwo(count: number): number {
  return 2 ** Math.ceil(Math.log2(Math.max(4, count)));
}
