import type { InstrumentFamily } from "../families.js";
import type { Masking } from "../signal/spectrumShape.js";

/** The beginning of one note as heard in a recording. */
export interface HeardOnset {
  /** Seconds from the first sample of the recording. */
  readonly at: number;
  /** How far the rise of the spectrum stands above its surroundings: 1 is what it takes to count at all. */
  readonly strength: number;
  /** Standard deviation of `at`, milliseconds. */
  readonly noiseMs: number;
  /** How strongly it was played among the notes of this recording, 1 to 127. */
  readonly velocity: number;
}

/** What was heard in a whole recording. */
export interface HeardOnsets {
  /** In order of time; empty when nothing was heard. */
  readonly onsets: readonly HeardOnset[];
  /** Standard deviation of the times as a whole, milliseconds: what a take states as `motorFloorMs`; 0 without onsets. */
  readonly noiseMs: number;
  /** Length of the recording, seconds. */
  readonly seconds: number;
}

/** How to listen. */
export interface ListeningOptions {
  /** How the instrument's notes begin. */
  readonly family: InstrumentFamily;
  /** Takes out of each spectrum, in place, what is not the player's; called for every frame in order. See `spectrumShapeAt`. */
  readonly masking?: Masking;
}
