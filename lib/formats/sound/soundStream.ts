/** A piece of a recording: one Float32Array per channel, full scale 1, all of one length. */
export interface SoundBlock {
  /** Samples per second of each channel. */
  readonly rate: number;
  readonly channels: readonly Float32Array[];
}

/** A recording as it is decoded: blocks in order, all of one rate and number of channels. */
export type SoundStream = AsyncIterable<SoundBlock>;
