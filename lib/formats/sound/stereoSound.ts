/** Sample rate of a written sound file, samples per second: that of the compact disc or that of video. */
export type Rate = 44100 | 48000;

/** A stereo sound in memory: left and right channel of one length, samples from -1 to 1. */
export interface StereoSound {
  readonly rate: Rate;
  readonly channels: readonly [Float32Array, Float32Array];
}

/** Metadata of a sound file. */
export interface Label {
  readonly title: string;
  readonly comment: string;
  readonly software: string;
  /** Who made it. */
  readonly author?: string | undefined;
  /** What it is part of. */
  readonly course?: string | undefined;
  readonly copyright?: string | undefined;
  readonly licence?: string | undefined;
  /** Beats a minute. */
  readonly tempo?: number | undefined;
}
