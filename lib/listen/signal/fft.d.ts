declare module "fft.js" {
  /** Fourier transforms of a power-of-two size; complex numbers lie as real, imaginary, real, ... */
  export default class FFT {
    constructor(size: number);
    readonly size: number;
    transform(out: Float64Array, data: Float64Array): void;
    inverseTransform(out: Float64Array, data: Float64Array): void;
    realTransform(out: Float64Array, data: Float64Array): void;
    /** Fills the upper half of a spectrum of real samples. */
    completeSpectrum(spectrum: Float64Array): void;
  }
}
