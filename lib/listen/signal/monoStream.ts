import type { SoundStream } from "../../formats/sound/index.js";
import { type MonoSamples, type MonoSignal, monoSignal } from "./monoSignal.js";
import { sincDecimator } from "./sincDecimator.js";

/** A block of a sound as one channel. */
export interface MonoBlock extends MonoSamples {
  /** Samples per second of `samples`, the rate that is listened to. */
  readonly rate: number;
  /** Samples per second of `full`, the rate of the sound. */
  readonly fullRate: number;
}

/** A sound as one channel, freed from offset, at the rate that is listened to (see `spectrumShapeAt`). Without blocks it has none. */
export async function* monoStream(stream: SoundStream): AsyncGenerator<MonoBlock> {
  let mono: MonoSignal | undefined;
  let fullRate = 0;
  for await (const { rate, channels } of stream) {
    mono ??= monoSignal({ rate, count: channels.length }, sincDecimator);
    fullRate = rate;
    yield { rate: mono.rate, fullRate, ...mono.push(channels) };
  }
  if (mono !== undefined) yield { rate: mono.rate, fullRate, ...mono.finish() };
}
