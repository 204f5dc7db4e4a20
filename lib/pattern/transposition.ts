import { chordTransposed } from "./chordSymbol.js";
import type { ChordSymbol, Instrument, Interval, Key, Note, Part, Pattern, Pitch } from "./model.js";
import { octavesBeyond, opposite, pitchClassOf, transposePitch } from "./pitch.js";

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

/**
 * The smallest interval from one tonic to another: at most a tritone up or down. A tritone spelled as an augmented fourth goes up, one
 * spelled as a diminished fifth goes down, so that the intervals there and back cancel.
 */
export function intervalBetween(from: Key["tonic"], to: Key["tonic"]): Interval {
  const diatonic = modulo(stepOf(to) - stepOf(from), 7);
  const up = { diatonic, chromatic: modulo(pitchClassOf(to) - pitchClassOf(from), 12) };
  const chromatic = up.chromatic > 6 || (up.chromatic === 6 && diatonic > 3) ? up.chromatic - 12 : up.chromatic;
  // The octave of the staff steps that agrees with the semitones: 7 steps for 12 semitones.
  const octaves = Math.round((chromatic * 7) / 12 / 7 - diatonic / 7);
  return { diatonic: octavesBeyond(up, octaves).diatonic + 0, chromatic };
}

function stepOf(tonic: Key["tonic"]): number {
  return "CDEFGAB".indexOf(tonic.letter);
}

function modulo(value: number, by: number): number {
  return ((value % by) + by) % by;
}
