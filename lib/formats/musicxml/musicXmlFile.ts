import type { Fraction, Problem } from "../../base/index.js";
import type { Meter } from "../../time/index.js";

/** A pitch as MusicXML writes it. */
export interface StaffPitch {
  readonly letter: "C" | "D" | "E" | "F" | "G" | "A" | "B";
  /** Semitones, sharps positive. */
  readonly alter: number;
  readonly octave: number;
}

export interface MusicXmlNote {
  /** Whole notes from the start of the first bar played. */
  readonly position: Fraction;
  readonly length: Fraction;
  /** As WRITTEN; absent for unpitched percussion. */
  readonly written?: StaffPitch;
  /** ADDED to written to get sounding, octaves included (MusicXML 4.0, `transpose`). */
  readonly transposition: { readonly diatonic: number; readonly chromatic: number };
  /** General MIDI key of an unpitched note, where the file says one. */
  readonly percussion?: number;
  readonly voice: string;
  /** Whether it sounds together with the note before it, as a chord. */
  readonly chord: boolean;
  readonly accent: boolean;
  /** Index among the bars played. */
  readonly bar: number;
}

/** A bar as played: repeats are written out. */
export interface MusicXmlBar {
  /** As printed: "1", "X1". */
  readonly number: string;
  readonly position: Fraction;
  readonly length: Fraction;
  /** Absent where the music has no time signature, or one no meter expresses. */
  readonly meter?: Meter;
  /** A bar that is not counted: a pick-up. */
  readonly implicit: boolean;
}

/** What is wrong with, or was left out of, a bar (index among the bars played). */
export interface MusicXmlAdvice {
  readonly bar: number;
  readonly problem: Problem;
}

export interface MusicXmlPart {
  readonly id: string;
  readonly name: string;
  readonly bars: readonly MusicXmlBar[];
  /** In order of their starts, ties joined. */
  readonly notes: readonly MusicXmlNote[];
  /** Severity `error` where the bar cannot be played as it stands. */
  readonly advice: readonly MusicXmlAdvice[];
}

export interface MusicXmlFile {
  readonly parts: readonly MusicXmlPart[];
}
