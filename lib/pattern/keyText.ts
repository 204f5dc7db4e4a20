import type { Key, Scale } from "./model.js";
import { accidentals, alterOf, pitchClassOf } from "./pitch.js";

// Keys and scales that were read before, from their texts and back: without the table of scales, which nobody needs who follows a course.

/** The tonic of a text and the name behind it, which may be that of no scale; `major` where there is none. */
export function readTonic(text: string): { readonly tonic: Scale["tonic"]; readonly name: string } | undefined {
  const [, letter, sign = "", written = "major"] = SCALE.exec(text.trim()) ?? [];
  if (letter === undefined) return undefined;
  const name = written.trim().replace(/\s+/g, " ");
  return { tonic: { letter: letter.toUpperCase() as "C", alter: alterOf(sign) }, name };
}

/** A tonic, and the name of a scale behind it. */
const SCALE = /^([A-Ga-g])(b|#|♭|♯)?(?:\s+([\p{L}\p{N}][\p{L}\p{N} -]*))?$/u;

/** The canonical text of a scale, which `scaleOf` reads: "D dorian". */
export function scaleText(scale: Scale): string {
  return `${tonicText(scale.tonic)} ${scale.name}`;
}

/** "D", "Bb", "F#". */
function tonicText(tonic: Key["tonic"]): string {
  return tonic.letter + accidentals(tonic.alter);
}

/** The pitch classes of a scale (semitones above C, 0 to 11), in the order of the scale. */
export function pitchClasses(scale: Scale): readonly number[] {
  const tonic = pitchClassOf(scale.tonic);
  return scale.steps.map((step) => (tonic + step) % 12);
}

/** The key of a text that `parseKey` took before: its mode is not looked up, so that who follows a course has no table of scales. */
export function readKey(text: string): Key | undefined {
  const read = readTonic(text);
  return read && { tonic: read.tonic, mode: read.name.toLowerCase() };
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

/** A text of such a place: the key that is written, and its octaves. */
export function placeIn(text: string): { readonly written: string; readonly octaves: KeyPlace["octaves"] } {
  const [, written = text, way] = OCTAVE.exec(text.trim()) ?? [];
  return { written, octaves: way === undefined ? 0 : way === "higher" ? 1 : -1 };
}

const OCTAVE = /^(.*?\S)\s+(?:an?\s+)?octave\s+(higher|lower)$/;

/** The same of a text that `parseKeyPlace` took before. */
export function readKeyPlace(text: string): KeyPlace | undefined {
  const { written, octaves } = placeIn(text);
  const key = readKey(written);
  return key && { key, octaves };
}

/** The canonical text, read back by `parseKeyPlace`. */
export function keyPlaceText({ key, octaves }: KeyPlace): string {
  return octaves === 0 ? keyText(key) : `${keyText(key)} octave ${octaves > 0 ? "higher" : "lower"}`;
}
