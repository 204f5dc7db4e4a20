import { failure, success } from "../base/index.js";
import { problem } from "./codes.js";
import type { Interval, Pitch } from "./model.js";
import type { Result } from "./problem.js";
import { sayOfPitch } from "./sayPitch.js";

const LETTERS: readonly Pitch["letter"][] = ["C", "D", "E", "F", "G", "A", "B"];

const SEMITONES: Readonly<Record<Pitch["letter"], number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Concert pitch, ISO 16:1975: A4 (MIDI 69) is 440 Hz. */
export const CONCERT_A_HERTZ = 440;

const CONCERT_A_NUMBER = 69;

/**
 * Reads a pitch in scientific pitch notation: "D4", "Bb3", "F#5", "B♭3", "Cbb4"; a small letter is accepted.
 *
 * Problems: PITCH_NOT_READ, PITCH_OUT_OF_RANGE (outside MIDI 0 to 127).
 * @example parsePitch("Bb3") // { ok: true, value: { letter: "B", alter: -1, octave: 3 }, ... }
 */
export function parsePitch(text: string): Result<Pitch> {
  const match = /^([A-Ga-g])(b{1,2}|#{1,2}|♭{1,2}|♯{1,2})?(-?\d{1,2})$/.exec(text.trim());
  if (!match) {
    const found = JSON.stringify(text.length > 20 ? `${text.slice(0, 20)}...` : text);
    const message = sayOfPitch("pitch-problem.pitch-not-read", { found });
    return failure(problem("PITCH_NOT_READ", message, {}, sayOfPitch("pitch-problem.pitch-not-read-remedy")));
  }
  const letter = match[1]!.toUpperCase() as Pitch["letter"];
  const pitch: Pitch = { letter, alter: alterOf(match[2] ?? ""), octave: Number(match[3]) };
  const number = midiNumber(pitch);
  if (number >= 0 && number <= 127) return success(pitch);
  const message = sayOfPitch("pitch-problem.pitch-out-of-range", { found: text.trim() });
  const remedy = sayOfPitch("pitch-problem.pitch-out-of-range-remedy", { pitch: `${letter}${match[2] ?? ""}4` });
  return failure(problem("PITCH_OUT_OF_RANGE", message, {}, remedy));
}

/**
 * The canonical text of a pitch, which `parsePitch` reads: "D4", "Bb3", "F##5".
 *
 * @example
 * pitchText(parsePitch("bb3").value) // "Bb3"
 */
export function pitchText(pitch: Pitch): string {
  return `${pitch.letter}${accidentals(pitch.alter)}${pitch.octave}`;
}

/** The MIDI note number of a pitch: C4 is 60, A4 is 69. */
export function midiNumber(pitch: Pitch): number {
  return SEMITONES[pitch.letter] + pitch.alter + 12 * (pitch.octave + 1);
}

/** Semitones above C, 0 to 11, of a note without octave. */
export function pitchClassOf(note: Pick<Pitch, "letter" | "alter">): number {
  return (SEMITONES[note.letter] + note.alter + 24) % 12;
}

/** The frequency of a MIDI note number in hertz: 440 * 2^((n - 69) / 12), ISO 16:1975; `tuning` is the frequency of A4 where it is another. */
export function frequency(number: number, tuning: number = CONCERT_A_HERTZ): number {
  return tuning * 2 ** ((number - CONCERT_A_NUMBER) / 12);
}

/**
 * Transposes a pitch, spelled by the interval. A spelling with three or more accidentals is replaced by one with at most one.
 *
 * @example
 * pitchText(transposePitch(parsePitch("D4").value, { diatonic: 2, chromatic: 3 })) // "F4"
 */
export function transposePitch(pitch: Pitch, interval: Interval): Pitch {
  const target = midiNumber(pitch) + interval.chromatic;
  const step = LETTERS.indexOf(pitch.letter) + 7 * pitch.octave + interval.diatonic;
  const spelled = spelledAt(step, target);
  if (Math.abs(spelled.alter) <= 2) return spelled;
  const toward = Math.sign(spelled.alter);
  let nearer = spelled;
  for (let moved = 1; Math.abs(nearer.alter) > 1; moved++) nearer = spelledAt(step + toward * moved, target);
  return nearer;
}

/** The accidentals of an alteration in semitones: "b", "##", "". */
export function accidentals(alter: number): string {
  return (alter < 0 ? "b" : "#").repeat(Math.abs(alter));
}

/** The alteration in semitones of accidentals ("b", "♯♯"). */
export function alterOf(signs: string): number {
  return /[b♭]/.test(signs) ? -signs.length : signs.length;
}

/** The interval in the opposite direction. */
export function opposite(interval: Interval): Interval {
  return { diatonic: 0 - interval.diatonic, chromatic: 0 - interval.chromatic };
}

/** An interval plus octaves (negative: minus). */
export function octavesBeyond(interval: Interval, octaves: number): Interval {
  return { diatonic: interval.diatonic + 7 * octaves, chromatic: interval.chromatic + 12 * octaves };
}

/** The pitch on a staff step (0 is C0, 7 is C1) that sounds as MIDI number `number`, with as many accidentals as needed. */
function spelledAt(step: number, number: number): Pitch {
  const octave = Math.floor(step / 7);
  const letter = LETTERS[step - 7 * octave]!;
  const alter = number - midiNumber({ letter, alter: 0, octave });
  return { letter, alter: alter + 0, octave };
}
