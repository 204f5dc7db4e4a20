import type { Key } from "../../pattern/index.js";

/** A note as it was heard or played. */
export interface HeardNote {
  /** Seconds from the beginning of the recording at which it begins. */
  readonly at: number;
  /** Standard deviation of `at`, milliseconds. */
  readonly noiseMs: number;
  /** Seconds at which it ends; `undefined` where that cannot be heard. */
  readonly end: number | undefined;
  /** MIDI numbers in concert pitch, with fractions, several of a chord; none where no pitch is clear. */
  readonly pitches: readonly number[];
}

/** What a draft is to be written in. */
export interface DraftOptions {
  /** Beats a minute that the playing is stated to have. */
  readonly tempo: number;
  /** Places of the grid in a whole note: 16 for sixteenths. */
  readonly perWhole: number;
  /** Places of the grid in a beat, and in a bar. */
  readonly perBeat: number;
  readonly perBar: number;
  /** The key that spells the pitches. */
  readonly key: Key;
  /** Seconds at which bar 1 begins; with the first note when `undefined`. */
  readonly starts: number | undefined;
}

/** A note of a draft, on the grid. */
export interface DraftNote {
  /** Places of the grid from bar 1; negative before it. */
  readonly place: number;
  /** Places of the grid that it lasts, at least 1. */
  readonly length: number;
  /** "D4", several of a chord; none where no pitch was heard. */
  readonly pitches: readonly string[];
  /** Seconds at which it was heard. */
  readonly at: number;
  /** How sure each is, 0 to 1: the chance that it is this one and not its neighbour; `undefined` where it was not heard at all. */
  readonly sure: {
    readonly place: number;
    readonly length: number | undefined;
    readonly pitch: number | undefined;
  };
}

/** The first draft of a riff. */
export interface Draft {
  readonly notes: readonly DraftNote[];
  readonly bars: number;
  /** The notes as a line, bars divided: a note without a pitch stands where the one before it stood. */
  readonly line: string;
  /** Beats a minute that the notes keep on average. */
  readonly tempo: number;
  /** Seconds of the recording at which bar 1 begins. */
  readonly starts: number;
  /** Standard deviation of the notes about the grid, milliseconds: theirs and that of hearing them. */
  readonly scatterMs: number;
  /** How far the playing is tuned from A4 = 440 Hz, cents; `undefined` without pitches. */
  readonly cents: number | undefined;
  /** How well the notes agree with the grid, 0 to 1: length of the mean vector. */
  readonly agreement: number;
}
