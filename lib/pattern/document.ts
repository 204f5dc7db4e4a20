import type { Instrument } from "./model.js";

/** A pattern as a curriculum writes it; the schema describes every word. */
export interface PatternDocument {
  readonly title?: string | undefined;
  /** "4/4": the meter at bar 1. */
  readonly meter: string;
  readonly "meter-changes"?: readonly MeterChangeDocument[] | undefined;
  readonly bars: number;
  readonly key?: string | undefined;
  readonly swing?: string | undefined;
  readonly "pick-up"?: string | undefined;
  readonly chords?: string | undefined;
  readonly parts: Readonly<Record<string, PartDocument>>;
}

export interface MeterChangeDocument {
  readonly bar: number;
  readonly meter: string;
}

/** What a part plays: exactly one of `notes`, `voices` and `file`. */
export interface MusicDocument {
  /** A line of notes: "D4/8 r/8 F4/8. A4/16~ | A4/4 ...". */
  readonly notes?: string | undefined;
  /** A grid line per percussion voice. */
  readonly voices?: Readonly<Record<string, string>> | undefined;
  /** A MIDI or MusicXML file beside the curriculum. */
  readonly file?: string | undefined;
  /** Track of a MIDI file: counted from 1, or by name. */
  readonly track?: number | string | undefined;
  /** Part of a MusicXML file: by id or by name. */
  readonly part?: string | undefined;
  /** Bars of the file: "1-4" or "3", counted from 1; from its first bar when absent. */
  readonly bars?: string | undefined;
}

export interface PartDocument extends MusicDocument {
  readonly instrument?: string | undefined;
  /** The same part at several densities, by name; then the part itself has no music of its own. */
  readonly variants?: Readonly<Record<string, MusicDocument>> | undefined;
}

export interface InstrumentDocument {
  /** Interval from written to sounding: "-M2". */
  readonly sounds?: string | undefined;
  readonly lowest: string;
  readonly highest?: string | undefined;
  readonly clef?: Instrument["clef"] | undefined;
}
