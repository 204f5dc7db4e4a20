import type { Fraction, Seconds } from "../../base/index.js";
import type { Meter } from "../../time/index.js";

/** How a file counts time: ticks to a quarter note, or ticks to a SMPTE frame. */
export type MidiDivision =
  | { readonly kind: "quarter"; readonly ticks: number }
  /** `framesPerSecond` is exact: 29.97 is 30000/1001. */
  | { readonly kind: "frame"; readonly ticks: number; readonly framesPerSecond: Fraction };

/** A note, its end joined to its start. */
export interface MidiNote {
  /** Index of the track, from 0. */
  readonly track: number;
  /** 0 to 15; 9 is percussion (channel 10 as musicians count). */
  readonly channel: number;
  /** MIDI note number, 0 to 127. */
  readonly key: number;
  /** 1 to 127. */
  readonly velocity: number;
  readonly ticks: number;
  readonly endTicks: number;
  readonly seconds: Seconds;
  readonly endSeconds: Seconds;
  /** Whole notes from the start of the file; absent when it counts in frames. */
  readonly position?: Fraction;
  readonly length?: Fraction;
}

export interface MidiTempo {
  readonly ticks: number;
  readonly seconds: Seconds;
  readonly microsecondsPerQuarter: number;
}

export interface MidiMeter {
  readonly ticks: number;
  readonly meter: Meter;
}

export interface MidiKey {
  readonly ticks: number;
  /** Sharps; negative for flats. */
  readonly fifths: number;
  readonly minor: boolean;
}

/** What changes along a file; one for all tracks, or one for each in format 2. */
export interface MidiMaps {
  readonly tempi: readonly MidiTempo[];
  readonly meters: readonly MidiMeter[];
  readonly keys: readonly MidiKey[];
}

export interface MidiTrack extends MidiMaps {
  /** From 0. */
  readonly index: number;
  readonly name?: string;
  /** In order of their starts. */
  readonly notes: readonly MidiNote[];
  readonly endTicks: number;
}

export interface MidiFile {
  readonly format: 0 | 1 | 2;
  readonly division: MidiDivision;
  readonly tracks: readonly MidiTrack[];
}
