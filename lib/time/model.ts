import type { Fraction } from "../base/index.js";

/** A meter: the groups of `1/lower` notes that are beamed together. 4/4 has groups [4], lower 4; 7/8 as 2+2+3 has [2, 2, 3], 8; 6/8 has [3, 3], 8. */
export interface Meter {
  readonly kind: "simple" | "compound" | "additive";
  readonly groups: readonly number[];
  readonly lower: number;
}

/** A musical length in bars, beats or note values. The meter in force resolves it to whole notes. */
export interface Span {
  readonly count: Fraction;
  /** "note": count is in whole notes (1/8 note). */
  readonly unit: "bar" | "beat" | "note";
}

/** A swing: `first:second` is the ratio of the two notes of each pair, in smallest whole numbers, such as 2:1. `subdivision` is in whole notes: 1/8 for swung eighths. */
export interface Swing {
  readonly subdivision: Fraction;
  readonly first: number;
  readonly second: number;
}

/** A tempo: beats per minute. Without a beat unit, the beat of the meter in force is meant. */
export interface Tempo {
  readonly perMinute: Fraction;
  /** Beat unit in whole notes: 1/4, 3/8. */
  readonly beat?: Fraction;
}

/** A bar: its start, in whole notes, and its meter. */
export interface MeteredBar {
  readonly position: Fraction;
  readonly meter: Meter;
}

/** The conversion of whole notes to seconds: a constant tempo, and swing if any. */
export interface Pace {
  /** Beats per minute. */
  readonly tempo: Fraction;
  /** Beat unit in whole notes. */
  readonly beat: Fraction;
  readonly swing?: Swing | undefined;
  /** The bars in which swung pairs are counted; without them, pairs are counted from position 0. */
  readonly bars?: readonly MeteredBar[] | undefined;
}
