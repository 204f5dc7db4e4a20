/** Samples per second a sound file that is written may have: that of the compact disc and that of video. */
export type Rate = 44100 | 48000;

/** A stereo sound in memory: two channels of one length, left and right, within -1 and 1. */
export interface StereoSound {
  readonly rate: Rate;
  readonly channels: readonly [Float32Array, Float32Array];
}

/** What a sound file says of itself. */
export interface Label {
  readonly title: string;
  readonly comment: string;
  readonly software: string;
}
