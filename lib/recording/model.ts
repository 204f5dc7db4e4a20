import type { Rate, StereoSound } from "../formats/sound/index.js";

/** A recording as a score needs it: which seconds of which file, at which speed, moved by how many semitones. */
export interface RecordingNeed {
  /** The file as the course names it. */
  readonly file: string;
  /** SHA-256 of its bytes, hexadecimal. */
  readonly sha256: string;
  /** Seconds of the file that are wanted; what lies before its beginning or behind its end is silence. */
  readonly from: number;
  readonly to: number;
  /** Seconds of the recording that are heard in a second. */
  readonly speed: number;
  readonly semitones: number;
  /** Whether it is of drums, whose attacks are kept as they were played. */
  readonly isStruck: boolean;
}

/** A recording that was made ready: the samples that a score plays. */
export interface ReadyRecording extends Omit<RecordingNeed, "file" | "to" | "isStruck">, StereoSound {
  /** Seconds of the file at which the first sample lies. */
  readonly from: number;
}

/** Sound in memory at the rate it was recorded at. */
export interface RecordedSound {
  readonly rate: number;
  /** Left and right, of one length. */
  readonly channels: readonly [Float32Array, Float32Array];
}

/** How a sound is stretched. */
export interface Stretching {
  /** Seconds of the sound that are heard in a second: above 0; 1 leaves it as it is. */
  readonly speed: number;
  /** Whether it is of drums, of which attacks matter more than pitches. */
  readonly isStruck: boolean;
}

/**
 * Makes a sound slower or faster without moving its pitch. What was at `t` seconds lies at `t / speed` seconds afterwards, and the result is `round(length / speed)` samples
 * long.
 */
export type Stretcher = (sound: RecordedSound, stretching: Stretching) => RecordedSound;

export type { Rate };
