import type { SoundStream } from "../../formats/sound/index.js";
import { halvedBy } from "../halve.js";
import { highPass } from "../highPass.js";
import { mixDown } from "../mixDown.js";
import { halvingsOf } from "../spectrumShape.js";
import { lowering } from "./lowering.js";

/** Some samples of a sound as one channel. */
export interface Row {
  /** Samples per second, the rate onsets are listened to at. */
  readonly rate: number;
  readonly samples: Float32Array;
  /** The same stretch, but for what filters hold back, at the rate of the sound. */
  readonly full: { readonly rate: number; readonly samples: Float32Array };
}

/** A sound as one channel, freed from offset, at the rate onsets are listened to at (see `spectrumShapeAt`). */
export async function* rowOf(stream: SoundStream): AsyncGenerator<Row> {
  let form: ReturnType<typeof formOf> | undefined;
  for await (const { rate, channels } of stream) {
    form ??= formOf(rate, channels.length);
    yield form.row(form.mix.push(channels));
  }
  if (form === undefined) return;
  yield form.row(form.mix.finish());
  yield { rate: form.rate, samples: form.lower.finish(), full: { rate: form.full, samples: new Float32Array(0) } };
}

function formOf(full: number, count: number) {
  const mix = mixDown(count);
  const clean = highPass(full);
  const halvings = halvingsOf(full);
  const lower = halvedBy(lowering, halvings);
  const rate = full / 2 ** halvings;
  const row = (samples: Float32Array): Row => {
    clean(samples);
    return { rate, samples: lower.push(samples), full: { rate: full, samples } };
  };
  return { mix, lower, rate, full, row };
}
