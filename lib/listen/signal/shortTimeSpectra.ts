import { pairOfSpectra } from "./magnitudeSpectra.js";
import type { SlidingBuffer } from "./slidingBuffer.js";
import type { SpectrumShape } from "./spectrumShape.js";

/** Short-time Fourier transform of a recording as its samples come, two frames at a time. */
export interface ShortTimeSpectra {
  /** Gives `hear` the magnitudes of every frame whose samples are there, in order. */
  readonly advance: (hear: (magnitudes: Float32Array, frame: number) => void) => void;
}

export function shortTimeSpectra(shape: SpectrumShape, samples: SlidingBuffer): ShortTimeSpectra {
  const { size, hop } = shape;
  const spectra = pairOfSpectra(shape);
  const pair = [new Float32Array(size / 2), new Float32Array(size / 2)] as const;
  const startOf = (frame: number): number => Math.round(frame * hop) - size / 2;
  let next = 0;
  return {
    advance: (hear) => {
      while (startOf(next + 1) + size <= samples.length()) {
        const from = startOf(next);
        const second = startOf(next + 1) - from;
        spectra(samples.at(from, second + size), [0, second], pair);
        hear(pair[0], next);
        hear(pair[1], next + 1);
        next += 2;
      }
    },
  };
}
