import { halvedBy, halving, joined } from "./halve.js";
import { highPass } from "./highPass.js";
import { mixDown } from "./mixDown.js";
import { halvingsOf } from "./spectrumShape.js";

/** Makes of channels the one row of samples that is listened to, as blocks of any length come in. */
export interface Mono {
  readonly push: (channels: readonly Float32Array[]) => Float32Array;
  /** What is left when the recording ends. */
  readonly finish: () => Float32Array;
}

/** Channels mixed down without cancelling each other, freed from offset, and halved in rate as often as `halvingsOf` says. */
export function monoOf({ rate, count }: { rate: number; count: number }): Mono {
  const mix = mixDown(count);
  const clean = highPass(rate);
  const halved = halvedBy(halving, halvingsOf(rate));
  const pass = (samples: Float32Array): Float32Array => {
    clean(samples);
    return halved.push(samples);
  };
  return {
    push: (channels) => pass(mix.push(channels)),
    finish: () => {
      const last = pass(mix.finish());
      return joined(last, halved.finish());
    },
  };
}
