/** A sound has begun when it passes this share of the loudest sample (-34 dB): dither and the ringing of codecs before it stay below. */
const BEGUN = 0.02;
/** Samples are remembered that are louder than all before by this factor, so that a sound that swells fills no memory; our choice. */
const LOUDER = 1.005;

/** Listens for the first sample that is clearly heard. */
export interface FirstSound {
  readonly push: (samples: Float32Array) => void;
  /** Number of that sample; `undefined` in silence. */
  readonly sample: () => number | undefined;
}

/** What is clearly heard is known when the loudest sample is: those louder than all before them are remembered until then. */
export function firstSound(): FirstSound {
  const louder: { readonly level: number; readonly sample: number }[] = [];
  let next = 0;
  let count = 0;
  let peak = 0;
  return {
    push: (samples) => {
      for (let i = 0; i < samples.length; i++) {
        const level = Math.abs(samples[i]!);
        if (level > peak) peak = level;
        if (level <= next) continue;
        louder.push({ level, sample: count + i });
        next = LOUDER * level;
      }
      count += samples.length;
    },
    sample: () => louder.find(({ level }) => level >= BEGUN * peak)?.sample,
  };
}
