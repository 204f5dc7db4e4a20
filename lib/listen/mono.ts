import { halving } from "./halve.js";
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
  const halvings = Array.from({ length: halvingsOf(rate) }, halving);
  const pass = (samples: Float32Array): Float32Array => {
    clean(samples);
    return halvings.reduce((rest, { push }) => push(rest), samples);
  };
  const join = (one: Float32Array, other: Float32Array): Float32Array => {
    const both = new Float32Array(one.length + other.length);
    both.set(one);
    both.set(other, one.length);
    return both;
  };
  return {
    push: (channels) => pass(mix.push(channels)),
    finish: () => {
      const last = pass(mix.finish());
      return halvings.reduce((rest, { finish }, i) => {
        // What one halving still held goes through those after it.
        const held = halvings.slice(i + 1).reduce((samples, { push }) => push(samples), finish());
        return join(rest, held);
      }, last);
    },
  };
}
