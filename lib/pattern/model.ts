import type { Fraction } from "../base/index.js";
import type { SoundFacts } from "../formats/sound/index.js";
import type { Meter, Swing } from "../time/index.js";

/** A spelled pitch in scientific pitch notation: letter, alteration in semitones (sharps positive), octave (C4 = middle C). */
export interface Pitch {
  readonly letter: "C" | "D" | "E" | "F" | "G" | "A" | "B";
  readonly alter: number;
  readonly octave: number;
}

/** A signed interval in staff steps and semitones: a major second up is { diatonic: 1, chromatic: 2 }. */
export interface Interval {
  readonly diatonic: number;
  readonly chromatic: number;
}

/** A tonic (pitch class) and the scale above it. */
export interface Key {
  readonly tonic: { readonly letter: Pitch["letter"]; readonly alter: number };
  /** "major", "minor", "dorian", ...: a name in the scale table. */
  readonly mode: string;
}

export interface Scale {
  readonly tonic: Key["tonic"];
  readonly name: string;
  /** Semitones above the tonic, ascending, first 0. */
  readonly steps: readonly number[];
}

/** A sounding note, ties joined. Position and length in whole notes; the position counts from bar 1 and is negative in the pick-up. */
export interface Note {
  readonly position: Fraction;
  readonly length: Fraction;
  /** In a swung pattern: how much later than the swing has it a note of a tuplet begins and ends to sound, in whole notes; negative is earlier. Absent where that is nothing. */
  readonly late?: Fraction | undefined;
  readonly endLate?: Fraction | undefined;
  /** Concert pitch; absent for percussion. */
  readonly pitch?: Pitch;
  /** Percussion voice ("hat"); absent for pitched notes. */
  readonly voice?: string;
  readonly accent: boolean;
  /** Present when played shorter than written (a dot over the note). */
  readonly short?: true;
  /** Present when held for all of its length (tenuto, a line over the note). */
  readonly tenuto?: true;
  /** Present when slurred to the note that begins where this one ends, which has another pitch. */
  readonly slurred?: true;
  /** Present when its pitch slides up to it at the beginning, or falls off at the end. */
  readonly scoop?: true;
  readonly fall?: true;
  /** Present for a ghost note: hardly heard. */
  readonly ghost?: true;
  /** The loudness in force; absent before the first one of a line. */
  readonly loudness?: Loudness;
}

/** Loudness, softest first. */
export type Loudness = "pp" | "p" | "mp" | "mf" | "f" | "ff";

export interface Bar {
  /** 1-based. */
  readonly number: number;
  readonly position: Fraction;
  readonly meter: Meter;
}

export interface ChordSymbol {
  readonly position: Fraction;
  readonly length: Fraction;
  /** As written: "Dm7", "B♭7/D". */
  readonly text: string;
}

/** A sound file of a part that was recorded, and where its bars lie in it. */
export interface RecordedTake {
  /** The file as the course names it. */
  readonly file: string;
  /** SHA-256 of its bytes, hexadecimal. */
  readonly sha256: string;
  /** Beats per minute, and whole notes per beat. */
  readonly tempo: Fraction;
  readonly beat: Fraction;
  /** Seconds from the beginning of the file to bar 1. */
  readonly starts: number;
  /** The first bar taken, counted from 1, and how many are: a divisor or a multiple of the bars of the pattern. */
  readonly first: number;
  readonly bars: number;
  /** Seconds from the beginning of the file to the bar line before each bar taken, and to the end of the last; absent where its bars are as long as the tempo says. */
  readonly lines?: readonly number[];
}

/** What is known of a sound file without listening to it. */
export interface RecordingFacts extends SoundFacts {
  /** SHA-256 of its bytes, hexadecimal. */
  readonly sha256: string;
}

export interface Part {
  readonly name: string;
  readonly kind: "pitched" | "percussion";
  /** Name in the instrument table, when given. */
  readonly instrument?: string;
  /** Variant name -> notes. A part without variants has the one key `""`, used for every variant of the drill. */
  readonly variants: Readonly<Record<string, readonly Note[]>>;
  /** Variant name -> its recordings, slowest first, which are heard in place of its notes. Absent without any. */
  readonly recorded?: Readonly<Record<string, readonly RecordedTake[]>>;
  /** Present where recordings stay as they are in another key: of drums, and where nothing says that they have pitches. */
  readonly staysInKey?: true;
}

/** A riff and its accompaniment: one phrase, which a take repeats. */
export interface Pattern {
  readonly name: string;
  readonly title?: string;
  /** Who wrote and who arranged it, where the pattern says so. */
  readonly author?: string;
  readonly arranger?: string;
  readonly bars: readonly Bar[];
  /** Sum of the bars, without the pick-up. */
  readonly length: Fraction;
  /** Length of the pick-up before bar 1; 0 when there is none. */
  readonly pickup: Fraction;
  readonly key: Key;
  /** Hertz of A4; absent at the usual 440. */
  readonly tuning?: number;
  readonly swing?: Swing;
  /** How much faster than the tempo each bar goes, round and round through a take, where the grid is that of a recording; absent elsewhere. */
  readonly paces?: readonly Fraction[];
  readonly chords: readonly ChordSymbol[];
  readonly parts: readonly Part[];
}

/** An instrument: its transposition, its written range and its clef. */
export interface Instrument {
  readonly name: string;
  /** Interval from written to sounding pitch, octaves included: B♭ trumpet { diatonic: -1, chromatic: -2 }. */
  readonly transposition: Interval;
  /** Written range; `highest` absent when no limit is stated. */
  readonly lowest: Pitch;
  readonly highest?: Pitch;
  readonly clef: "treble" | "bass" | "alto" | "tenor" | "percussion";
}
