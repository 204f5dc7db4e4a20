import { random } from "../../base/index.js";

/** Whole-number sample formats, in bits. */
export type Bits = 16 | 24;

/**
 * Quantises two channels to whole numbers of `bits` bits, left and right interleaved. 1 is full scale (2^(bits - 1)); larger samples are clipped.
 *
 * With a `dither` seed, triangular noise (the sum of two uniform numbers of one step each) is added before rounding, so that the rounding
 * error does not follow the music (Lipshitz, Wannamaker and Vanderkooy 1992; from memory). The noise is also in the silences, at about
 * -93 dB for 16 bits. Without a seed silence stays exactly 0. The same seed gives the same numbers.
 */
export function quantised(
  channels: readonly [Float32Array, Float32Array],
  { bits, dither }: { readonly bits: Bits; readonly dither?: number | string | undefined },
): Int32Array<ArrayBuffer> {
  const full = 2 ** (bits - 1);
  const numbers = new Int32Array(2 * channels[0].length);
  const stream = dither === undefined ? undefined : random(dither);
  for (let i = 0; i < channels[0].length; i++) {
    for (let c = 0; c < 2; c++) {
      const noise = stream === undefined ? 0 : stream.uniform() - stream.uniform();
      const value = Math.round(channels[c]![i]! * full + noise);
      numbers[2 * i + c] = Math.max(-full, Math.min(full - 1, value));
    }
  }
  return numbers;
}
