import type { SoundStream } from "../../formats/sound/index.js";

/** Pieces a second of the picture of a recording; our choice: finer than a px of it. */
const PIECES = 100;

/**
 * The lowest and highest sample of each hundredth of a second, all channels together.
 *
 * @example
 * await soundPeaks(stream) // [low, high] of each stretch of time
 */
export async function soundPeaks(sound: SoundStream): Promise<readonly (readonly [low: number, high: number])[]> {
  const peaks: [number, number][] = [];
  let at = 0;
  for await (const { rate, channels } of sound) {
    const length = channels[0]?.length ?? 0;
    for (const samples of channels)
      for (let i = 0; i < length; i++) {
        const piece = Math.floor(((at + i) * PIECES) / rate);
        peaks[piece] ??= [0, 0];
        const peak = peaks[piece];
        const value = samples[i]!;
        if (value < peak[0]) peak[0] = value;
        else if (value > peak[1]) peak[1] = value;
      }
    at += length;
  }
  return peaks;
}
