import type { Place } from "../base/index.js";
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
}

/**
 * Checks notes against the written range of an instrument: one problem for notes that are too low, one for notes that are too high, each
 * with the note furthest out.
 *
 * Problems: WRITTEN_BELOW_RANGE, WRITTEN_ABOVE_RANGE, WRITTEN_BEYOND_BEGINNERS in the place of both where `beginners` is given; none when all notes fit or there are no pitched notes.
 */
export function rangeProblems({ notes, where = {}, ...question }: RangeQuestion): readonly Problem[] {
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
    const octaves = Math.ceil((midiNumber(instrument.lowest) - midiNumber(furthest)) / 12);
    const remedy = say("pattern-problem.written-below-range-remedy", { octave: octave + octaves });
    found.push(problem(beginners ? "WRITTEN_BEYOND_BEGINNERS" : "WRITTEN_BELOW_RANGE", message, where, remedy));
  }
  if (highest && high.length > 0) {
    const furthest = high.reduce((a, b) => (midiNumber(b) > midiNumber(a) ? b : a));
    const limit = pitchText(highest);
    const given = { count: high.length, instrument: instrument.name, limit, furthest: pitchText(furthest) };
    const message = say(`pattern-problem.written-above-${beginners ? "beginners" : "range"}`, given);
    const octaves = Math.ceil((midiNumber(furthest) - midiNumber(highest)) / 12);
    const remedy = say("pattern-problem.written-above-range-remedy", { octave: octave - octaves });
    found.push(problem(beginners ? "WRITTEN_BEYOND_BEGINNERS" : "WRITTEN_ABOVE_RANGE", message, where, remedy));
  }
  return found;
}
