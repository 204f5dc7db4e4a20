/** A block of a recording: one Float32Array for each channel, all of one length; full scale is 1. */
export interface SoundBlock {
  /** Samples per second of each channel. */
  readonly rate: number;
  readonly channels: readonly Float32Array[];
}

/** A decoded recording: blocks in order, all with one sample rate and one number of channels. */
export type SoundStream = AsyncIterable<SoundBlock>;
