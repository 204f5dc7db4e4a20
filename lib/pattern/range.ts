import type { Place, Worded } from "../base/index.js";
import { problem } from "./codes.js";
import type { Instrument, Note, Pitch } from "./model.js";
import { midiNumber, pitchText } from "./pitch.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";
import { writtenPitch } from "./transposition.js";

/** Notes in concert pitch and the instrument that is to play them. */
export interface RangeQuestion {
  readonly notes: readonly Note[];
  readonly instrument: Instrument;
  /** Octaves the part is shifted by for this player; 0 when absent. */
  readonly octave?: number;
  readonly where?: Place;
  /** The notes that beginners on the instrument have learnt, written; asked for in the place of its whole range. */
  readonly beginners?: { readonly lowest: Pitch; readonly highest: Pitch };
  /** What to do about it, which is another thing for a part and for who plays it. */
  readonly remedy?: Worded;
}

/**
 * Checks notes against the written range of an instrument: one problem for notes that are too low, one for notes that are too high, each
 * with the note furthest out.
 *
 * Problems: WRITTEN_BELOW_RANGE, WRITTEN_ABOVE_RANGE, WRITTEN_BEYOND_BEGINNERS in the place of both where `beginners` is given; none when all notes fit or there are no pitched notes.
 */
export function rangeProblems({ notes, where = {}, remedy, ...question }: RangeQuestion): readonly Problem[] {
  const { octave = 0, beginners } = question;
  const instrument = { ...question.instrument, ...beginners };
  const written = notes.flatMap((note) => (note.pitch ? [writtenPitch(note.pitch, instrument, octave)] : []));
  const low = written.filter((pitch) => midiNumber(pitch) < midiNumber(instrument.lowest));
  const highest = instrument.highest;
  const high = highest ? written.filter((pitch) => midiNumber(pitch) > midiNumber(highest)) : [];
  const found: Problem[] = [];
  if (low.length > 0) {
    const furthest = low.reduce((a, b) => (midiNumber(b) < midiNumber(a) ? b : a));
    const limit = pitchText(instrument.lowest);
    const given = { count: low.length, instrument: instrument.name, limit, furthest: pitchText(furthest) };
    const message = say(`pattern-problem.written-below-${beginners ? "beginners" : "range"}`, given);
    found.push(problem(beginners ? "WRITTEN_BEYOND_BEGINNERS" : "WRITTEN_BELOW_RANGE", message, where, remedy));
  }
  if (highest && high.length > 0) {
    const furthest = high.reduce((a, b) => (midiNumber(b) > midiNumber(a) ? b : a));
    const limit = pitchText(highest);
    const given = { count: high.length, instrument: instrument.name, limit, furthest: pitchText(furthest) };
    const message = say(`pattern-problem.written-above-${beginners ? "beginners" : "range"}`, given);
    found.push(problem(beginners ? "WRITTEN_BEYOND_BEGINNERS" : "WRITTEN_ABOVE_RANGE", message, where, remedy));
  }
  return found;
}

/** The compass of a part: its lowest and its highest note as they sound, as MIDI numbers. */
export interface Compass {
  readonly lowest: number;
  readonly highest: number;
}

/** The compass of these notes; `undefined` where none has a pitch. */
export function compassOf(notes: readonly Note[]): Compass | undefined {
  let found: { lowest: number; highest: number } | undefined;
  for (const { pitch } of notes) {
    if (pitch === undefined) continue;
    const number = midiNumber(pitch);
    found = {
      lowest: Math.min(number, found?.lowest ?? number),
      highest: Math.max(number, found?.highest ?? number),
    };
  }
  return found;
}

/** Octaves that a part may be moved by, from `least` to `most`; none where `least` is greater. */
export interface Octaves {
  readonly least: number;
  readonly most: number;
}

/** Most octaves that a part is moved by, up or down: as many as a course may say of a player. */
const MOST_OCTAVES = 4;

/** The octaves by which a part of this compass may be moved, so that all of it lies in the written range of an instrument. */
export function octavesWithin(
  { lowest, highest }: Compass,
  instrument: Pick<Instrument, "transposition" | "lowest" | "highest">,
): Octaves {
  const sounding = (written: Pitch): number => midiNumber(written) + instrument.transposition.chromatic;
  return {
    least: Math.max(-MOST_OCTAVES, Math.ceil((sounding(instrument.lowest) - lowest) / 12)),
    most: instrument.highest
      ? Math.min(MOST_OCTAVES, Math.floor((sounding(instrument.highest) - highest) / 12))
      : MOST_OCTAVES,
  };
}

/** The one of these octaves that is nearest to another; `undefined` where there is none. */
export function nearestOctave({ least, most }: Octaves, to: number): number | undefined {
  return least > most ? undefined : Math.max(least, Math.min(most, to));
}
