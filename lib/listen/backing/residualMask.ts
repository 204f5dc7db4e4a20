import { shortTimeSpectra } from "../signal/shortTimeSpectra.js";
import { slidingBuffer } from "../signal/slidingBuffer.js";
import { type Masking, spectrumShapeAt } from "../signal/spectrumShape.js";
import type { ResidualEcho } from "./residualEcho.js";

/** How far above the expected leak, as power, a bin must stand to be the player's (9 dB): noise passes 8 times its mean once in e^8. */
const ABOVE = 8;
/** Time in which what the room keeps of the backing falls by 60 dB, seconds: our choice, a furnished room. */
const RING = 0.5;
/** Samples of the expected backing that are worked on at a time, and what is remembered, seconds (our choice, ample). */
const PIECE = 4096;
const REMEMBERED = 1;

/** The masking of what is left of a backing. */
export interface ResidualMask {
  /** The backing as it sounds in the next samples; ahead of the frames the masking is asked for. */
  readonly push: (taken: Float32Array) => void;
  /** Masks the frames of the recording without the backing, in order, and takes down what it did. */
  readonly masking: Masking;
  readonly frames: readonly MaskedFrame[];
}

/** One frame: powers summed over bins. */
export interface MaskedFrame {
  /** The middle, seconds from the first sample of the recording. */
  readonly seconds: number;
  /** What the masking left. */
  readonly left: number;
  /** What is expected to be left of the backing. */
  readonly cover: number;
}

/** Masks, in the spectra of a recording of this rate, what is expected to be left of the backing and its ring. */
export function residualMask(rate: number, leak: ResidualEcho): ResidualMask {
  const shape = spectrumShapeAt(rate);
  const width = shape.size / 2;
  const taken = slidingBuffer(Math.round(REMEMBERED * rate));
  const spectra = shortTimeSpectra(shape, taken);
  const waiting: Float32Array[] = [];
  const held = new Float32Array(width);
  const before = new Float32Array(width);
  const shares = new Float32Array(width);
  leak.shares.forEach((share, band) => {
    shares.fill(share, leak.bins[band]!, leak.bins[band + 1]!);
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
        // Beside each bin as well: what leaks from a bin into the next differs with the phase.
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
        // What may be either's stays the player's as far as it was before: a note that goes on must not begin anew when the backing is over.
        const own = whole - hidden + Math.min(hidden, before[k]!);
        before[k] = own;
        magnitudes[k] = Math.sqrt(own);
      }
      frames.push({ seconds, left, cover });
    },
    frames,
  };
}
