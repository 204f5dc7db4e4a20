import { success } from "../base/index.js";
import { type KeyPlace, placeIn } from "./keyText.js";
import type { Key, Pitch } from "./model.js";
import { midiNumber } from "./pitch.js";
import type { Result } from "./problem.js";
import { scaleOf } from "./scale.js";
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

/** Reads the key that a pattern is moved to: "G dorian", "A minor octave higher". Problems: those of `parseKey`. */
export function parseKeyPlace(text: string): Result<KeyPlace> {
  const { written, octaves } = placeIn(text);
  const key = parseKey(written);
  return key.ok ? success({ key: key.value, octaves }) : key;
}

/** The key signature: number of sharps, negative for flats. D dorian is 0, Bb major is -2. May exceed 7 in remote keys. */
export function keySignature(key: Key): number {
  return FIFTHS[key.tonic.letter] + 7 * key.tonic.alter + (SIGNATURE_SHIFT.get(key.mode) ?? 0);
}

/** Whether a key has the signature of the minor key on its tonic. */
export function isMinor(key: Key): boolean {
  return SIGNATURE_SHIFT.get(key.mode) === SIGNATURE_SHIFT.get("minor");
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

function modulo(value: number, by: number): number {
  return ((value % by) + by) % by;
}
