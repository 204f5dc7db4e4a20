import type { Fraction } from "../../base/index.js";
import type { Meter } from "../../time/index.js";
import type { Problem } from "../problem.js";

/** A pitch of MusicXML. */
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
  /** WRITTEN pitch; absent for unpitched percussion. */
  readonly written?: StaffPitch;
  /** Interval ADDED to the written pitch to get the sounding pitch, octaves included (MusicXML 4.0, `transpose`). */
  readonly transposition: { readonly diatonic: number; readonly chromatic: number };
  /** General MIDI key of an unpitched note, when stated. */
  readonly percussion?: number;
  readonly voice: string;
  /** Whether it is in one chord with the note before it. */
  readonly chord: boolean;
  readonly accent: boolean;
  /** Present when its head stands in parentheses: a ghost note. */
  readonly ghost?: true;
  /** Articulations of MusicXML 4.0; `detached-legato` is both short and tenuto. */
  readonly short?: true;
  readonly tenuto?: true;
  readonly scoop?: true;
  readonly fall?: true;
  /** Present on every note of a slur but its last. */
  readonly slurred?: true;
  /** The dynamic mark in force; absent before the first one. Softer than pp is pp, louder than ff is ff. */
  readonly loudness?: "pp" | "p" | "mp" | "mf" | "f" | "ff";
  /** From where to where the tuplets are in which it begins and ends; absent outside tuplets. */
  readonly tuplet?: XmlTuplet;
  readonly endsIn?: XmlTuplet;
  /** Index among the bars played. */
  readonly bar: number;
}

/** A tuplet, in whole notes from where the position of its notes is counted. */
export interface XmlTuplet {
  readonly from: Fraction;
  readonly to: Fraction;
}

/** A bar as played: repeats are written out. */
export interface MusicXmlBar {
  /** As printed: "1", "X1". */
  readonly number: string;
  readonly position: Fraction;
  readonly length: Fraction;
  /** Absent without a time signature, or when leeway has no such meter. */
  readonly meter?: Meter;
  /** Whether the bar is not counted, such as a pick-up. */
  readonly implicit: boolean;
}

/** A problem of a bar, or something that was left out. `bar` is an index among the bars played. */
export interface MusicXmlAdvice {
  readonly bar: number;
  readonly problem: Problem;
}

export interface MusicXmlPart {
  readonly id: string;
  readonly name: string;
  readonly bars: readonly MusicXmlBar[];
  /** In order of onset, ties joined. */
  readonly notes: readonly MusicXmlNote[];
  /** Severity `error` where the bar cannot be played as it stands. */
  readonly advice: readonly MusicXmlAdvice[];
}

export interface MusicXmlFile {
  readonly parts: readonly MusicXmlPart[];
}
