import { highPass } from "../highPass.js";
import { type MixDown, mixDown } from "../mixDown.js";
import type { SoundStream } from "../sound.js";
import { spectrumShapeAt } from "../spectrumShape.js";
import { resampled } from "./resample.js";

/** A recording read forward as one channel. */
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
  const blocks = stream[Symbol.asyncIterator]();
  const kept: { readonly from: number; readonly samples: Float32Array }[] = [];
  let end = 0;
  let length: number | undefined;
  let rate: number | undefined;
  let mix: MixDown | undefined;
  let clean: ((samples: Float32Array) => void) | undefined;
  const keep = (samples: Float32Array): void => {
    clean?.(samples);
    if (samples.length > 0) kept.push({ from: end, samples });
    end += samples.length;
  };
  const fetch = async (): Promise<void> => {
    const next = await blocks.next();
    if (next.done === true) {
      if (mix !== undefined) keep(mix.finish());
      length = end;
      return;
    }
    const { rate: given, channels } = next.value;
    mix ??= mixDown(channels.length);
    clean ??= highPass(given);
    rate ??= given;
    keep(mix.push(channels));
  };
  while (length === undefined && kept.length === 0) await fetch();
  if (rate === undefined || kept.length === 0) return undefined;
  return {
    rate,
    get length() {
      return length;
    },
    async read(from, count) {
      while (kept.length > 0 && kept[0]!.from + kept[0]!.samples.length <= from) kept.shift();
      while (length === undefined && end < from + count) {
        await fetch();
        while (kept.length > 0 && kept[0]!.from + kept[0]!.samples.length <= from) kept.shift();
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
      await blocks.return?.();
    },
  };
}

/**
 * The recording at the rate onsets are listened to at. Its filter lets far less fold over than a rise in a spectrum would need: what folds
 * over depends on where samples fall, and could not be subtracted.
 */
export async function openListening(stream: SoundStream): Promise<SoundReader | undefined> {
  const reader = await openReader(stream);
  if (reader === undefined) return undefined;
  const { rate } = spectrumShapeAt(reader.rate);
  const step = reader.rate / rate;
  if (step === 1) return reader;
  return {
    rate,
    get length() {
      return reader.length === undefined ? undefined : Math.ceil(reader.length / step);
    },
    read: (from, count) => resampled(reader, { from: from * step, step, count }),
    close: () => reader.close(),
  };
}
