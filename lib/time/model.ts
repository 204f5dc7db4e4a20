import type { Fraction } from "../base/index.js";

/** 4/4 is { groups: [4], lower: 4 }; 7/8 as 2+2+3 is { groups: [2, 2, 3], lower: 8 }; 6/8 is { groups: [3, 3], lower: 8 }: groups are beamed together. */
export interface Meter {
  readonly kind: "simple" | "compound" | "additive";
  readonly groups: readonly number[];
  readonly lower: number;
}

/** A length as a musician says it; resolved to whole notes by the meter in force. */
export interface Span {
  readonly count: Fraction;
  /** "note": count is in whole notes (1/8 note). */
  readonly unit: "bar" | "beat" | "note";
}

/** `first:second` is the ratio of each pair of `subdivision` (whole notes, 1/8 for swung eighths), smallest whole numbers, as 2:1. */
export interface Swing {
  readonly subdivision: Fraction;
  readonly first: number;
  readonly second: number;
}

/** Beats per minute of a named beat unit; without one, the beat of the meter in force is meant. */
export interface Tempo {
  readonly perMinute: Fraction;
  /** Whole notes per beat: 1/4, 3/8. */
  readonly beat?: Fraction;
}

/** Where a bar begins, in whole notes, and its meter. */
export interface MeteredBar {
  readonly position: Fraction;
  readonly meter: Meter;
}

/** What turns whole notes into seconds: a constant tempo, and swing if any. */
export interface Pace {
  /** Beats per minute. */
  readonly tempo: Fraction;
  /** Whole notes per beat. */
  readonly beat: Fraction;
  readonly swing?: Swing | undefined;
  /** The bars that swung pairs are counted in; without them pairs are counted from position 0. */
  readonly bars?: readonly MeteredBar[] | undefined;
}
