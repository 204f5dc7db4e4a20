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
  if (dither !== undefined) {
    const stream = random(dither);
    const noise = (): number => stream.uniform() - stream.uniform();
    for (let i = 0; i < left.length; i++) {
      numbers[2 * i] = whole(left[i]! * full + noise(), full);
      numbers[2 * i + 1] = whole(right[i]! * full + noise(), full);
    }
    return numbers;
  }
  for (let i = 0; i < left.length; i++) {
    numbers[2 * i] = whole(left[i]! * full, full);
    numbers[2 * i + 1] = whole(right[i]! * full, full);
  }
  return numbers;
}

/** The nearest whole number, halves up, as `Math.round` has it, but faster: 32-bit samples are exact when a half is added. */
function whole(value: number, full: number): number {
  const nearest = Math.floor(value + 0.5);
  return nearest < -full ? -full : nearest >= full ? full - 1 : nearest;
}
