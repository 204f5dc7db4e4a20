import type { Fraction } from "../../base/index.js";
import type { ChordSymbol, Instrument, Key, Note, Scale } from "../../pattern/index.js";
import type { Meter, Swing } from "../../time/index.js";
import type { FileWords } from "../fileWords.js";

/** A page to engrave: bars in musical time, and staves of notes at concert pitch. Positions in whole notes from the downbeat of bar 1. */
export interface Page {
  readonly title: string;
  /** Who wrote and arranged it, and whose it is; each absent when nobody is named. */
  readonly credits?: { readonly author?: string; readonly arranger?: string; readonly copyright?: string } | undefined;
  /** Beats per minute of a note value. */
  readonly tempo?: { readonly perMinute: number; readonly beat: Fraction } | undefined;
  readonly swing?: Swing | undefined;
  /** Hertz of A4, where it is said. */
  readonly tuning?: number | undefined;
  /** Concert key. */
  readonly key: Key;
  /** Without gaps; a pick-up is the first, and implicit. */
  readonly bars: readonly PageBar[];
  /** How often the bars after the pick-up are played, between repeat signs; once, without signs, when left out. */
  readonly repeats?: number | undefined;
  /** Chord symbols at concert pitch, in order. */
  readonly chords: readonly Pick<ChordSymbol, "position" | "text">[];
  readonly staves: readonly PageStaff[];
  /** The language of signs over the staves; English when absent. */
  readonly words?: FileWords | undefined;
}

export interface PageBar {
  readonly position: Fraction;
  /** Shorter than the meter's in a pick-up, or where the music stops inside a bar. */
  readonly length: Fraction;
  readonly meter: Meter;
  /** As printed; "0" for a pick-up. */
  readonly number: string;
  readonly isPickup: boolean;
  /** A rehearsal mark at its start. */
  readonly mark?: string | undefined;
  /** Another tempo that begins with it, in beats of the page's tempo. */
  readonly tempo?: number | undefined;
}

export interface PageStaff {
  readonly name: string;
  /** In order; chords and overlapping notes become chords and voices. */
  readonly notes: readonly Note[];
  readonly kind: "pitched" | "percussion";
  /** The reader of the staff. Without one: concert pitch, and the clef that suits the notes. */
  readonly reader?: Reader | undefined;
  /** Brackets over the staff, with a text at each end. */
  readonly brackets: readonly Bracket[];
  /** Open bars, to improvise in: slashes and the scale. */
  readonly open: readonly OpenBars[];
}

/** The reader of a staff. */
export interface Reader {
  readonly instrument: Instrument;
  /** Octaves by which the part is moved for this player. */
  readonly octave: number;
  /** `concert`: concert pitch; only whole octaves of the instrument's transposition are kept. */
  readonly pitch: "transposed" | "concert";
}

export interface Bracket {
  readonly from: Fraction;
  readonly to: Fraction;
  readonly fromText: string;
  /** Empty for no text, as when the music ends inside the bracket. */
  readonly toText: string;
}

export interface OpenBars {
  readonly from: Fraction;
  readonly to: Fraction;
  /** At concert pitch. */
  readonly scale: Scale;
}
