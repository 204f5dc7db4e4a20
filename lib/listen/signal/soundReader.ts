import type { SoundStream } from "../../formats/sound/index.js";
import type { PackedSound } from "./blockFloatingPoint.js";
import { monoStream } from "./monoStream.js";

/** A sound read forward as one channel, at the rate onsets are listened to at. */
export interface SoundReader {
  /** Samples per second. */
  readonly rate: number;
  /** `count` samples from `from` on, zeros before the start and after the end; `from` must never lie before that of an earlier call. */
  read(from: number, count: number): Promise<Float64Array>;
  /** Samples there are, once the end has been met; `undefined` before. */
  readonly length: number | undefined;
  /** Lets the stream go before its end. */
  close(): Promise<void>;
}

/** Opens a stream for reading forward; what was read is kept only as far back as the last `from`. `undefined` when there is no sample. */
export async function openReader(stream: SoundStream): Promise<SoundReader | undefined> {
  const rows = monoStream(stream);
  const kept: { readonly from: number; readonly samples: Float32Array }[] = [];
  let end = 0;
  let length: number | undefined;
  let rate = 0;
  const fetch = async (): Promise<void> => {
    const next = await rows.next();
    if (next.done === true) {
      length = end;
      return;
    }
    const { samples } = next.value;
    rate = next.value.rate;
    if (samples.length > 0) kept.push({ from: end, samples });
    end += samples.length;
  };
  const forget = (from: number): void => {
    while (kept.length > 0 && kept[0]!.from + kept[0]!.samples.length <= from) kept.shift();
  };
  while (length === undefined && kept.length === 0) await fetch();
  if (kept.length === 0) return undefined;
  return {
    rate,
    get length() {
      return length;
    },
    async read(from, count) {
      forget(from);
      while (length === undefined && end < from + count) {
        await fetch();
        forget(from);
      }
      const samples = new Float64Array(count);
      for (const block of kept) {
        const first = Math.max(from, block.from);
        const last = Math.min(from + count, block.from + block.samples.length);
        if (first < last) samples.set(block.samples.subarray(first - block.from, last - block.from), first - from);
      }
      return samples;
    },
    async close() {
      await rows.return(undefined);
    },
  };
}

/** A sound that is held, to be read as if it came in. */
export function packedReader(rate: number, { length, read }: PackedSound): SoundReader {
  return {
    rate,
    length: length(),
    read: (from, count) => Promise.resolve(read(from, count)),
    close: () => Promise.resolve(),
  };
}
