import { cascade, type Decimator, joined } from "./decimator.js";
import { highPass } from "./highPass.js";
import { mixDown } from "./mixDown.js";
import { decimationsAt } from "./spectrumShape.js";

/** Samples of one channel, at the rate of the recording and at the lower rate that is listened to. */
export interface MonoSamples {
  readonly full: Float32Array;
  /** The same stretch, but for what the filters hold back. */
  readonly samples: Float32Array;
}

/** Makes one channel of several, as blocks of any length come in. */
export interface MonoSignal {
  /** Samples per second of what is listened to; see `spectrumShapeAt`. */
  readonly rate: number;
  readonly push: (channels: readonly Float32Array[]) => MonoSamples;
  /** What is left when the recording ends. */
  readonly finish: () => MonoSamples;
}

/** Channels of a recording of this rate, mixed down without cancelling each other, freed from offset, and decimated. */
export function monoSignal(
  { rate, count }: { readonly rate: number; readonly count: number },
  decimator: () => Decimator,
): MonoSignal {
  const mix = mixDown(count);
  const clean = highPass(rate);
  const decimated = cascade(decimator, decimationsAt(rate));
  const pass = (full: Float32Array): MonoSamples => {
    clean(full);
    return { full, samples: decimated.push(full) };
  };
  return {
    rate: rate / 2 ** decimationsAt(rate),
    push: (channels) => pass(mix.push(channels)),
    finish: () => {
      const { full, samples } = pass(mix.finish());
      return { full, samples: joined(samples, decimated.finish()) };
    },
  };
}
