import { history } from "../history.js";
import type { SoundStream } from "../sound.js";
import { pairOfSpectra } from "../spectrum.js";
import { type Masking, spectrumShapeAt } from "../spectrumShape.js";
import type { Alignment } from "./aligned.js";
import type { OpenSound } from "./findBacking.js";
import { type Leak, measureLeak } from "./leak.js";
import type { RoomPath } from "./path.js";
import { type Separated, separated } from "./subtract.js";

/** How far above the expected leak, as power, a bin must stand to be the player's (9 dB): noise passes 8 times its mean once in e^8. */
const ABOVE = 8;
/** Time in which what the room keeps of the backing falls by 60 dB, seconds: our choice, a furnished room. */
const RING = 0.5;
/** Seconds of the expected backing that are remembered: a detector asks for a frame after it has read past it, by less than this. */
const REMEMBERED = 4;

/** A recording with its backing taken out, and the masking of what is left of it. */
export interface Masked {
  /** One channel. The masking has to be asked for frames of this very stream, in order. */
  readonly stream: SoundStream;
  readonly masking: Masking;
  /** What was in each frame the masking was asked for so far, in order. */
  readonly frames: readonly MaskedFrame[];
  /** How loud the backing was beside everything else in the stream so far, dB (root mean square); `undefined` when either is silent. */
  readonly bleed: () => number | undefined;
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

/** The recording without the backing: subtracted along its path, and what is left of it masked by what was taken out and its ring. */
export async function maskedListening(
  recording: OpenSound,
  backing: OpenSound,
  known: { readonly alignment: Alignment; readonly path: RoomPath },
): Promise<Masked | undefined> {
  const leak = await measureLeak(separated(recording, backing, known));
  if (leak === undefined) return undefined;
  const frames: MaskedFrame[] = [];
  let expect: ReturnType<typeof expectation> | undefined;
  const power = { left: 0, taken: 0 };
  const stream = async function* (pieces: AsyncIterable<Separated>): SoundStream {
    for await (const { rate, left, taken } of pieces) {
      expect ??= expectation(rate, leak);
      expect.push(taken);
      for (const sample of taken) power.taken += sample * sample;
      for (const sample of left) power.left += sample * sample;
      yield { rate, channels: [left] };
    }
  };
  return {
    stream: stream(separated(recording, backing, known)),
    masking: ({ seconds, magnitudes }) => {
      const expected = expect?.at(seconds);
      if (expected === undefined) return;
      let left = 0;
      let cover = 0;
      for (let k = 0; k < magnitudes.length; k++) {
        const rest = Math.max(0, magnitudes[k]! ** 2 - ABOVE * expected[k]!);
        magnitudes[k] = Math.sqrt(rest);
        left += rest;
        cover += expected[k]!;
      }
      frames.push({ seconds, left, cover });
    },
    frames,
    bleed: () => (power.left > 0 && power.taken > 0 ? 10 * Math.log10(power.taken / power.left) : undefined),
  };
}

/** The power that is expected to be left in each bin. */
function expectation(
  rate: number,
  leak: Leak,
): { push: (taken: Float32Array) => void; at: (seconds: number) => Float32Array } {
  const shape = spectrumShapeAt(rate);
  const { size } = shape;
  const spectra = pairOfSpectra(shape);
  const taken = history(Math.round(REMEMBERED * rate));
  const pair = [new Float32Array(size / 2), new Float32Array(size / 2)] as const;
  const held = new Float32Array(size / 2);
  const expected = new Float32Array(size / 2);
  const shares = new Float32Array(size / 2);
  leak.shares.forEach((share, band) => {
    shares.fill(share, leak.bins[band]!, leak.bins[band + 1]!);
  });
  let before = 0;
  return {
    push: (samples) => taken.push(samples),
    at: (seconds) => {
      const from = Math.round(seconds * rate) - size / 2;
      spectra(taken.at(from, size), [0, 0], pair);
      const kept = 10 ** ((-6 * Math.max(0, seconds - before)) / RING);
      before = seconds;
      for (let k = 0; k < held.length; k++) {
        // Beside each bin as well: what leaks from a bin into the next differs with the phase.
        const power =
          Math.max(pair[0][k]!, pair[0][Math.max(0, k - 1)]!, pair[0][Math.min(held.length - 1, k + 1)]!) ** 2;
        held[k] = Math.max(power, kept * held[k]!);
        expected[k] = shares[k]! * held[k]!;
      }
      return expected;
    },
  };
}
