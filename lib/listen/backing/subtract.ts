import type { SoundBlock } from "../sound.js";
import { type Alignment, alignedBacking } from "./aligned.js";
import type { OpenSound } from "./findBacking.js";
import { fourier, powerOfTwo } from "./fourier.js";
import type { RoomPath } from "./path.js";
import { openListening, openReader } from "./reader.js";

/** A piece of the recording without the backing, and the backing as it is expected to sound there. */
export interface Separated {
  readonly rate: number;
  /** Number of the first sample. */
  readonly from: number;
  readonly left: Float32Array;
  readonly taken: Float32Array;
}

/** The recording as one channel, the aligned backing taken out as it sounds along the path (overlap-save convolution). */
export async function* separated(
  recording: OpenSound,
  backing: OpenSound,
  { alignment, path }: { readonly alignment: Alignment; readonly path: RoomPath },
): AsyncGenerator<Separated> {
  const heard = await openListening(recording());
  const known = await openReader(backing());
  if (heard === undefined || known === undefined) return;
  const { rate } = heard;
  const { response, ahead } = path;
  const size = powerOfTwo(3 * response.length);
  const hop = size - response.length + 1;
  const transform = fourier(size);
  const filter = transform.forward(response);
  const aligned = alignedBacking(known, { ...alignment, rate });
  for (let from = 0; ; from += hop) {
    const samples = await heard.read(from, hop);
    const count = heard.length === undefined ? hop : Math.min(hop, heard.length - from);
    if (count <= 0) return;
    const spectrum = transform.forward(await aligned(from + ahead - response.length + 1, size));
    for (let k = 0; k <= size; k += 2) {
      const [re, im] = [spectrum[k]!, spectrum[k + 1]!];
      spectrum[k] = re * filter[k]! - im * filter[k + 1]!;
      spectrum[k + 1] = re * filter[k + 1]! + im * filter[k]!;
    }
    const sounding = transform.inverse(spectrum).subarray(response.length - 1);
    const taken = Float32Array.from(sounding.subarray(0, count));
    const left = Float32Array.from(samples.subarray(0, count), (value, i) => value - taken[i]!);
    yield { rate, from, left, taken };
  }
}

/** Of separated pieces what is left, as a recording. */
export async function* leftOf(pieces: AsyncIterable<Separated>): AsyncGenerator<SoundBlock> {
  for await (const { rate, left } of pieces) yield { rate, channels: [left] };
}
