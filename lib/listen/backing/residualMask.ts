import { shortTimeSpectra } from "../signal/shortTimeSpectra.js";
import { slidingBuffer } from "../signal/slidingBuffer.js";
import { type Masking, spectrumShapeAt } from "../signal/spectrumShape.js";
import type { ResidualEcho } from "./residualEcho.js";

/** Ratio of power to expected residual echo from which a bin is the player's (9 dB): noise passes 8 times its mean once in e^8. */
const ABOVE = 8;
/** Reverberation time (a fall by 60 dB), seconds. Our choice: a furnished room. */
const RING = 0.5;
/** Samples of the backing that are processed at a time, and seconds of it that are kept. Our choice, ample. */
const PIECE = 4096;
const REMEMBERED = 1;

/** Spectral masking of the residual echo. */
export interface ResidualMask {
  /** Takes the subtracted backing of the next samples. It must be ahead of the frames that are masked. */
  readonly push: (taken: Float32Array) => void;
  /** Masks the frames after echo cancellation, in order, and records their powers in `frames`. */
  readonly masking: Masking;
  readonly frames: readonly MaskedFrame[];
}

/** Powers of one frame, summed over its bins. */
export interface MaskedFrame {
  /** The middle, seconds from the first sample of the recording. */
  readonly seconds: number;
  /** Power after masking. */
  readonly left: number;
  /** Expected power of the residual echo. */
  readonly cover: number;
}

/** The mask of a recording of this rate: it removes the expected residual echo and its reverberation from each spectrum. */
export function residualMask(rate: number, residual: ResidualEcho): ResidualMask {
  const shape = spectrumShapeAt(rate);
  const width = shape.size / 2;
  const taken = slidingBuffer(Math.round(REMEMBERED * rate));
  const spectra = shortTimeSpectra(shape, taken);
  const waiting: Float32Array[] = [];
  const held = new Float32Array(width);
  const before = new Float32Array(width);
  const shares = new Float32Array(width);
  residual.shares.forEach((share, band) => {
    shares.fill(share, residual.bins[band]!, residual.bins[band + 1]!);
  });
  const frames: MaskedFrame[] = [];
  const kept = 10 ** ((-6 * shape.hop) / rate / RING);
  const push = (samples: Float32Array): void => {
    for (let from = 0; from < samples.length; from += PIECE) {
      taken.push(samples.subarray(from, from + PIECE));
      spectra.advance((magnitudes) => void waiting.push(magnitudes.slice()));
    }
  };
  return {
    push,
    masking: ({ seconds, magnitudes }) => {
      while (waiting.length === 0) push(new Float32Array(shape.size));
      const now = waiting.shift()!;
      let left = 0;
      let cover = 0;
      for (let k = 0; k < width; k++) {
        // The neighbours of the bin count as well: spectral leakage between bins differs with the phase.
        let most = now[k]!;
        if (k > 0 && now[k - 1]! > most) most = now[k - 1]!;
        if (k < width - 1 && now[k + 1]! > most) most = now[k + 1]!;
        let ring = kept * held[k]!;
        if (most * most > ring) ring = most * most;
        held[k] = ring;
        const expected = shares[k]! * ring;
        cover += expected;
        const whole = magnitudes[k]! * magnitudes[k]!;
        const limit = ABOVE * expected;
        const hidden = Math.min(whole, limit);
        left += whole - hidden;
        // Power that may be the player's or the backing's stays the player's up to its value in the frame before. Otherwise a note that goes on
        // would start again when the backing stops.
        const own = whole - hidden + Math.min(hidden, before[k]!);
        before[k] = own;
        magnitudes[k] = Math.sqrt(own);
      }
      frames.push({ seconds, left, cover });
    },
    frames,
  };
}
