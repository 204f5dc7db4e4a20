import type { Place } from "../base/index.js";
import { chordTransposed } from "./chords.js";
import { problem } from "./codes.js";
import { intervalBetween } from "./key.js";
import type { ChordSymbol, Instrument, Key, Note, Part, Pattern, Pitch } from "./model.js";
import { midiNumber, octavesBeyond, opposite, pitchText, transposePitch } from "./pitch.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";

/**
 * The written pitch of a concert pitch for an instrument, shifted by `octave` octaves (-2: two octaves lower).
 *
 * @example
 * pitchText(writtenPitch(parsePitch("C4").value, INSTRUMENTS.trumpet)) // "D4"
 */
export function writtenPitch(pitch: Pitch, instrument: Instrument, octave = 0): Pitch {
  return transposePitch(pitch, octavesBeyond(opposite(instrument.transposition), octave));
}

/**
 * The concert pitch of a written pitch: the inverse of `writtenPitch`.
 *
 * @example
 * pitchText(soundingPitch(parsePitch("D4").value, INSTRUMENTS.trumpet)) // "C4"
 */
export function soundingPitch(written: Pitch, instrument: Instrument, octave = 0): Pitch {
  return transposePitch(written, octavesBeyond(instrument.transposition, -octave));
}

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

/**
 * Transposes a pattern to another key: notes and chord symbols move by the smallest interval between the tonics (at most a tritone).
 * Percussion stays. `octaves` moves the notes by whole octaves beyond that.
 *
 * Only the tonics count: when the modes differ, the intervals between the notes stay as they are.
 */
export function transposePattern(pattern: Pattern, key: Key, octaves = 0): Pattern {
  const interval = octavesBeyond(intervalBetween(pattern.key.tonic, key.tonic), octaves);
  const note = (n: Note): Note => (n.pitch ? { ...n, pitch: transposePitch(n.pitch, interval) } : n);
  const chord = (c: ChordSymbol): ChordSymbol => ({ ...c, text: chordTransposed(c.text, interval) });
  const part = (p: Part): Part => ({
    ...p,
    variants: Object.fromEntries(Object.entries(p.variants).map(([name, notes]) => [name, notes.map(note)])),
  });
  return { ...pattern, key, chords: pattern.chords.map(chord), parts: pattern.parts.map(part) };
}
