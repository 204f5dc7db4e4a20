import { failure, type Result, success } from "../base/index.js";
import { problem } from "./codes.js";
import type { Interval, Pitch } from "./model.js";

const LETTERS: readonly Pitch["letter"][] = ["C", "D", "E", "F", "G", "A", "B"];

const SEMITONES: Readonly<Record<Pitch["letter"], number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Concert pitch, ISO 16:1975: A4 (MIDI 69) is 440 Hz. */
const CONCERT_A_HERTZ = 440;

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
    const message = `a pitch is a letter from A to G, up to two b or #, and an octave, such as D4, Bb3 or F#5; found ${found}`;
    return failure(problem("PITCH_NOT_READ", message, {}, "write for instance D4, Bb3 or F#5"));
  }
  const letter = match[1]!.toUpperCase() as Pitch["letter"];
  const pitch: Pitch = { letter, alter: alterOf(match[2] ?? ""), octave: Number(match[3]) };
  const number = midiNumber(pitch);
  if (number >= 0 && number <= 127) return success(pitch);
  return failure(
    problem(
      "PITCH_OUT_OF_RANGE",
      `${text.trim()} is beyond the pitches of MIDI, C-1 to G9`,
      {},
      `check the octave: C4 is middle C, so write for instance ${match[1]!.toUpperCase()}${match[2] ?? ""}4`,
    ),
  );
}

/** The canonical text of a pitch, which `parsePitch` reads: "D4", "Bb3", "F##5". */
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

/** The frequency of a MIDI note number in hertz: 440 * 2^((n - 69) / 12), ISO 16:1975. */
export function frequency(number: number): number {
  return CONCERT_A_HERTZ * 2 ** ((number - CONCERT_A_NUMBER) / 12);
}

/** Transposes a pitch, spelled by the interval. A spelling with three or more accidentals is replaced by one with at most one. */
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

/** Semitones of the major or perfect interval, by staff step. */
const MAJOR = [0, 2, 4, 5, 7, 9, 11] as const;

const PERFECT = new Set([0, 3, 4]);

/** Largest number of an interval that is read. Our choice: no instrument transposes by more than three octaves. */
const LARGEST_NUMBER = 22;

/**
 * Reads an interval by quality and number: "M2", "-P5" (down), "m10", "A4", "d5".
 *
 * Problem: INTERVAL_NOT_READ, also for a quality the number does not have (P3, M5).
 * @example parseInterval("-M2") // { ok: true, value: { diatonic: -1, chromatic: -2 }, ... }
 */
export function parseInterval(text: string): Result<Interval> {
  const match = /^([+-]?)([PMmAd])(\d{1,2})$/.exec(text.trim());
  const number = Number(match?.[3] ?? 0);
  const step = (number - 1) % 7;
  const shift = match && number >= 1 && number <= LARGEST_NUMBER ? qualityShift(match[2]!, step) : undefined;
  if (!match || shift === undefined) {
    const message = `an interval is a quality (P, M, m, A, d) and a number, minus for down, such as -M2 or P5; found ${JSON.stringify(text.slice(0, 20))}`;
    return failure(
      problem(
        "INTERVAL_NOT_READ",
        message,
        {},
        "write -M2 for a major second down, -M9 for an octave more, P1 for none",
      ),
    );
  }
  const up = { diatonic: number - 1, chromatic: MAJOR[step]! + 12 * Math.floor((number - 1) / 7) + shift };
  return success(match[1] === "-" ? opposite(up) : up);
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

function qualityShift(quality: string, step: number): number | undefined {
  const perfect = PERFECT.has(step);
  if (quality === "A") return 1;
  if (quality === "d") return perfect ? -1 : -2;
  if (quality === "P") return perfect ? 0 : undefined;
  if (perfect) return undefined;
  return quality === "M" ? 0 : -1;
}
