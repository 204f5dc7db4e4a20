import { powerOfTwo, realFft } from "../signal/realFft.js";
import type { SoundReader } from "../signal/soundReader.js";
import { alignedBacking } from "./alignedBacking.js";
import { delayBy } from "./delayEstimate.js";
import type { RoomPath } from "./roomResponse.js";

/** A piece of the recording after echo cancellation, and the echo that was subtracted. */
export interface Cancelled {
  readonly rate: number;
  readonly left: Float32Array;
  readonly taken: Float32Array;
}

/** Echo cancellation: the aligned backing is filtered by the room response (overlap-save convolution) and subtracted, piece after piece. */
export async function* cancelBacking(
  recording: SoundReader,
  backing: SoundReader,
  { response, ahead, alignment }: Pick<RoomPath, "response" | "ahead" | "alignment">,
): AsyncGenerator<Cancelled> {
  const { rate } = recording;
  const size = powerOfTwo(3 * response.length);
  const hop = size - response.length + 1;
  const filter = overlapSave(response, size);
  const aligned = alignedBacking(backing, { ...alignment, rate });
  // The last `response.length - 1` samples are kept from piece to piece.
  const sounds = new Float64Array(size);
  sounds.set(await aligned(ahead - response.length + 1, response.length - 1));
  for (let from = 0; ; from += hop) {
    const samples = await recording.read(from, hop);
    const count = recording.length === undefined ? hop : Math.min(hop, recording.length - from);
    if (count <= 0) return;
    sounds.set(await aligned(from + ahead, hop), response.length - 1);
    const sounding = filter(sounds);
    const taken = new Float32Array(sounding.subarray(0, count));
    const left = new Float32Array(count);
    for (let i = 0; i < count; i++) left[i] = samples[i]! - taken[i]!;
    yield { rate, left, taken };
    sounds.copyWithin(0, hop);
  }
}

/**
 * Overlap-save convolution of stretches of `size` samples, delayed by `late` samples. The result starts at the first sample for which the whole
 * response lies within the stretch, so it is `response.length - 1` samples shorter.
 */
export function overlapSave(
  response: Float64Array,
  size: number,
): (samples: ArrayLike<number>, late?: number) => Float64Array {
  const transform = realFft(size);
  const filter = transform.forward(response);
  const spectrum = new Float64Array(size + 2);
  const out = new Float64Array(size);
  return (samples, late = 0) => {
    transform.forward(samples, spectrum);
    if (late !== 0) delayBy(late, spectrum);
    for (let k = 0; k < spectrum.length; k += 2) {
      const re = spectrum[k]!;
      const im = spectrum[k + 1]!;
      spectrum[k] = re * filter[k]! - im * filter[k + 1]!;
      spectrum[k + 1] = re * filter[k + 1]! + im * filter[k]!;
    }
    return transform.inverse(spectrum, out).subarray(response.length - 1);
  };
}
