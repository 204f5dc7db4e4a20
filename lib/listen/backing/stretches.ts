import { powerOfTwo } from "../signal/realFft.js";
import type { SoundReader } from "../signal/soundReader.js";
import { type Alignment, alignedBacking } from "./alignedBacking.js";

/** Length of the response, seconds: the direct sound and the early room; what comes later is masked instead (our choice). */
const RESPONSE = 0.2;
/** Seconds of the response before the start that was found: the strongest arrival is not always the first. */
const AHEAD = 0.003;
/** Length of a stretch in lengths of the response, so that little of the response leaves it. */
const FRAME = 3;
/** Most stretches that are used, spread over the recording. Our choice: the error falls only with the root of their number. */
const MOST_STRETCHES = 160;

/** A stretch of the recording, and of the aligned backing `ahead` samples later, of one length. */
export interface Stretch {
  /** Number of its first sample in the recording. */
  readonly from: number;
  readonly heard: Float32Array;
  readonly known: Float32Array;
}

/** Stretches of the recording in which the backing sounds. */
export interface Stretches {
  readonly rate: number;
  /** Samples of the response, and those of them that lie before the place found. */
  readonly taps: number;
  readonly ahead: number;
  readonly all: readonly Stretch[];
  readonly alignment: Alignment;
}

/** Reads the stretches on which the room response is measured, and closes both sounds. */
export async function readStretches(
  recording: SoundReader,
  backing: SoundReader,
  alignment: Alignment & { readonly seconds: number },
): Promise<Stretches> {
  const { rate } = recording;
  const taps = Math.round(RESPONSE * rate);
  const ahead = Math.round(AHEAD * rate);
  const size = stretchSize(taps);
  const aligned = alignedBacking(backing, { ...alignment, rate });
  const begin = Math.max(0, Math.round(alignment.start * rate));
  const length = Math.max(size, (alignment.start + alignment.seconds) * rate - begin);
  // Stretches overlap by the length of the response, so that each sample after it belongs to one stretch only.
  const hop = Math.max(size - taps, length / MOST_STRETCHES);
  const all: Stretch[] = [];
  let read = Number.NEGATIVE_INFINITY;
  for (let at = begin; at < begin + length; at += hop) {
    const from = Math.round(at);
    // The overlap is copied from the stretch before, not read again.
    const shared = Math.max(0, read - from);
    const heard = joined(all.at(-1)?.heard, shared, await recording.read(from + shared, size - shared));
    if (recording.length !== undefined && from + size / 2 > recording.length) break;
    const known = joined(all.at(-1)?.known, shared, await aligned(from + shared + ahead, size - shared));
    all.push({ from, heard, known });
    read = from + size;
  }
  await Promise.all([recording.close(), backing.close()]);
  return { rate, taps, ahead, all, alignment };
}

/** Samples of a stretch for a response of so many taps. */
export function stretchSize(taps: number): number {
  return powerOfTwo(FRAME * taps);
}

function joined(before: Float32Array | undefined, shared: number, fresh: Float64Array): Float32Array {
  const whole = new Float32Array(shared + fresh.length);
  if (before !== undefined && shared > 0) whole.set(before.subarray(before.length - shared));
  whole.set(fresh, shared);
  return whole;
}
