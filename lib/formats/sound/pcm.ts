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
  const [left, right] = channels;
  const numbers = new Int32Array(2 * left.length);
  const stream = dither === undefined ? undefined : random(dither);
  const whole = (sample: number): number => {
    const noise = stream === undefined ? 0 : stream.uniform() - stream.uniform();
    const value = Math.round(sample * full + noise);
    return value < -full ? -full : value >= full ? full - 1 : value;
  };
  for (let i = 0; i < left.length; i++) {
    numbers[2 * i] = whole(left[i]!);
    numbers[2 * i + 1] = whole(right[i]!);
  }
  return numbers;
}
