/** How spectra are taken from a recording: frame n covers `size` samples and is centred on sample round(n * hop). */
export interface SpectrumShape {
  /** Samples per second of what is listened to; see `spectrumShapeAt`. */
  readonly rate: number;
  /** Samples under one (Hann) window, a power of two; a spectrum has size / 2 bins, bin k at k * rate / size Hz. */
  readonly size: number;
  /** Samples from one frame to the next; not necessarily whole. */
  readonly hop: number;
}

/** One spectrum. */
export interface SpectrumFrame {
  /** The middle of the frame, seconds from the first sample of the recording. */
  readonly seconds: number;
  /** Linear magnitudes of the mixed-down recording, size / 2 bins from 0 Hz; a full-scale sine has 1 in its bin. May be changed in place. */
  readonly magnitudes: Float32Array;
}

/** Changes a spectrum in place before onsets are looked for in it. */
export type Masking = (frame: SpectrumFrame) => void;

/** Length of a window, seconds: 2048 samples at 44.1 kHz (Boeck & Widmer 2013, reference code). */
const WINDOW = 2048 / 44100;
/** Frames a second; half of the published 200, because times are refined from the samples afterwards (our choice). */
const FRAMES_PER_SECOND = 100;

/** Recordings of higher rates are halved in rate, as often as it takes, Hz; our choice: what begins is heard below 12 kHz. */
const HIGHEST_RATE = 32_000;

/**
 * The spectra onsets are looked for in, for a recording of this rate (samples per second of each channel).
 *
 * `rate` of the shape is the one the recording is listened to at: half of it above 32 kHz, a quarter above 64 kHz; the window is the power
 * of two nearest to 46 ms.
 *
 * @example spectrumShapeAt(44100) // { rate: 22050, size: 1024, hop: 220.5 }
 */
export function spectrumShapeAt(rate: number): SpectrumShape {
  const heard = rate / 2 ** decimationsAt(rate);
  return { rate: heard, size: 2 ** Math.round(Math.log2(WINDOW * heard)), hop: heard / FRAMES_PER_SECOND };
}

/** How often the rate of a recording is halved before it is listened to. */
export function decimationsAt(rate: number): number {
  return Math.max(0, Math.ceil(Math.log2(rate / HIGHEST_RATE)));
}
