import type { Fraction } from "../base/index.js";
import { fraction, multiply } from "../base/index.js";
import type { Pitch } from "./model.js";
import { pitchText } from "./pitch.js";

/** A note, chord or rest as written. */
export interface NoteWord {
  readonly kind: "note";
  /** Several: a chord. None: a rest. */
  readonly pitches: readonly Pitch[];
  /** 1, 2, 4, ... 64. */
  readonly value: number;
  readonly dots: number;
  readonly accent: boolean;
  readonly tied: boolean;
  readonly offset: number;
}

/** `count` notes in the time of `inTimeOf`. */
export interface TupletWord {
  readonly kind: "tuplet";
  readonly count: number;
  readonly inTimeOf: number;
  readonly notes: readonly NoteWord[];
  readonly offset: number;
}

/** A rest that fills its bar, whatever the meter. */
export interface BarRestWord {
  readonly kind: "bar rest";
  readonly offset: number;
}

export type Word = NoteWord | TupletWord | BarRestWord;

/** In the time of how many a tuplet is when only its count is written; from the usual notation of tuplets (common practice, no source). */
export const USUAL_TUPLETS: ReadonlyMap<number, number> = new Map([
  [2, 3],
  [3, 2],
  [4, 3],
  [5, 4],
  [6, 4],
  [7, 4],
  [9, 8],
]);

/** The length a word asks for outside any tuplet, in whole notes: a dot adds a half, a second dot a quarter more. */
export function writtenLength(word: NoteWord): Fraction {
  return multiply(fraction(1, word.value), fraction(2 ** (word.dots + 1) - 1, 2 ** word.dots));
}

/** "D4/8 r/8 3[F4/8 G4/8 A4/8]": words as a line writes them. */
export function wordsText(words: readonly Word[]): string {
  return words.map(wordText).join(" ");
}

function wordText(word: Word): string {
  if (word.kind === "bar rest") return "r";
  if (word.kind === "tuplet") {
    const ratio = USUAL_TUPLETS.get(word.count) === word.inTimeOf ? "" : `:${word.inTimeOf}`;
    return `${word.count}${ratio}[${wordsText(word.notes)}]`;
  }
  const pitches = word.pitches.length === 0 ? "r" : word.pitches.map(pitchText).join("+");
  return `${pitches}/${word.value}${".".repeat(word.dots)}${word.accent ? "^" : ""}${word.tied ? "~" : ""}`;
}
