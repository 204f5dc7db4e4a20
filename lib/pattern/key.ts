import { success } from "../base/index.js";
import type { Interval, Key, Pitch } from "./model.js";
import { midiNumber, octavesBeyond, pitchClassOf } from "./pitch.js";
import type { Result } from "./problem.js";
import { readScale, scaleOf, tonicText } from "./scale.js";
import { SCALE_TABLE } from "./scaleTable.js";

/** Position of each letter on the line of fifths, C at 0. A sharp adds 7, a flat subtracts 7. */
const FIFTHS: Readonly<Record<Pitch["letter"], number>> = { F: -1, C: 0, G: 1, D: 2, A: 3, E: 4, B: 5 };
const BY_FIFTHS: readonly Pitch["letter"][] = ["F", "C", "G", "D", "A", "E", "B"];
/** Fifths from the signature of the major key on the same tonic to the signature of the mode. */
const SIGNATURE_SHIFT: ReadonlyMap<string, number> = new Map(
  SCALE_TABLE.flatMap(([, fifths, ...names]) => names.map((name) => [name, fifths] as const)),
);
/** The flattest chromatic note around C major as usually spelled, on the line of fifths: E flat (-3), up to G sharp (8). Common practice, no source. */
const FLATTEST = -3;

/**
 * Reads a key: a tonic and a mode ("D dorian", "Bb major"); a tonic alone is major.
 *
 * Problems: KEY_NOT_READ, SCALE_UNKNOWN.
 * @example parseKey("D dorian") // { ok: true, value: { tonic: { letter: "D", alter: 0 }, mode: "dorian" }, ... }
 */
export function parseKey(text: string, own: Readonly<Record<string, readonly number[]>> = {}): Result<Key> {
  const scale = scaleOf(text, own);
  return scale.ok ? success({ tonic: scale.value.tonic, mode: scale.value.name }) : scale;
}

/** The key that a text says, without a word on why it says none; for texts that were read before. */
export function readKey(text: string): Key | undefined {
  const scale = readScale(text);
  return scale && { tonic: scale.tonic, mode: scale.name };
}

/**
 * The canonical text of a key, which `parseKey` reads: "D dorian", "Bb major".
 *
 * @example
 * keyText(parseKey("Bb minor").value) // "Bb minor"
 */
export function keyText(key: Key): string {
  return `${tonicText(key.tonic)} ${key.mode}`;
}

/** A key that a pattern is moved to: to the nearest place, or an octave above (1) or below (-1) that. */
export interface KeyPlace {
  readonly key: Key;
  readonly octaves: -1 | 0 | 1;
}

const OCTAVE = /^(.*\S)\s+(?:an?\s+)?octave\s+(higher|lower)$/;

/** Reads the key that a pattern is moved to: "G dorian", "A minor octave higher". Problems: those of `parseKey`. */
export function parseKeyPlace(text: string): Result<KeyPlace> {
  const [, written = text, way] = OCTAVE.exec(text.trim()) ?? [];
  const key = parseKey(written);
  return key.ok ? success({ key: key.value, octaves: octavesOf(way) }) : key;
}

/** The same, without a word on why a text says none. */
export function readKeyPlace(text: string): KeyPlace | undefined {
  const [, written = text, way] = OCTAVE.exec(text.trim()) ?? [];
  const key = readKey(written);
  return key && { key, octaves: octavesOf(way) };
}

/** The canonical text, read back by `parseKeyPlace`. */
export function keyPlaceText({ key, octaves }: KeyPlace): string {
  return octaves === 0 ? keyText(key) : `${keyText(key)} octave ${octaves > 0 ? "higher" : "lower"}`;
}

function octavesOf(way: string | undefined): KeyPlace["octaves"] {
  return way === undefined ? 0 : way === "higher" ? 1 : -1;
}

/** The key signature: number of sharps, negative for flats. D dorian is 0, Bb major is -2. May exceed 7 in remote keys. */
export function keySignature(key: Key): number {
  return FIFTHS[key.tonic.letter] + 7 * key.tonic.alter + (SIGNATURE_SHIFT.get(key.mode) ?? 0);
}

/** Whether a key has the signature of the minor key on its tonic. */
export function isMinor(key: Key): boolean {
  return SIGNATURE_SHIFT.get(key.mode) === SIGNATURE_SHIFT.get("minor");
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

/** The usual spelling of a MIDI note number in a key: the nearest on the line of fifths around its signature. */
export function spelledIn(key: Key, number: number): Pitch {
  const flattest = keySignature(key) + FLATTEST;
  // Seven fifths are one semitone modulo 12, so 7 * class gives the position of the class on the line.
  const place = flattest + modulo(7 * number - flattest, 12);
  const letter = BY_FIFTHS[modulo(place + 1, 7)]!;
  const alter = Math.floor((place + 1) / 7);
  const natural = midiNumber({ letter, alter, octave: 0 });
  return { letter, alter, octave: Math.round((number - natural) / 12) };
}

function stepOf(tonic: Key["tonic"]): number {
  return "CDEFGAB".indexOf(tonic.letter);
}

function modulo(value: number, by: number): number {
  return ((value % by) + by) % by;
}
