import { packedSound } from "./blockFloatingPoint.js";
import type { SoundReader } from "./soundReader.js";

/** A sound that comes in while it is read. */
export interface GrowingSound {
  readonly reader: SoundReader;
  readonly push: (samples: Float32Array) => void;
  readonly end: () => void;
}

/** Holds what comes in, in 16 bits a sample; who reads beyond it waits until it is there or the sound has ended. */
export function growingSound(rate: number): GrowingSound {
  const held = packedSound();
  let ended = false;
  let wake: () => void = () => undefined;
  return {
    reader: {
      rate,
      get length() {
        return ended ? held.length() : undefined;
      },
      read: async (from, count) => {
        while (!ended && held.length() < from + count) await new Promise<void>((resolve) => (wake = resolve));
        return held.read(from, count);
      },
      close: () => Promise.resolve(),
    },
    push: (samples) => {
      held.push(samples);
      wake();
    },
    end: () => {
      ended = true;
      wake();
    },
  };
}
