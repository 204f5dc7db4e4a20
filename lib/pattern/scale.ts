import { failure, nearestName, type Result, success } from "../base/index.js";
import { problem } from "./codes.js";
import type { Key, Scale } from "./model.js";
import { accidentals, alterOf, pitchClassOf } from "./pitch.js";
import { sayOfKey } from "./say.js";

/**
 * Scale name -> semitones above the tonic. Common practice, from memory.
 * Keys, scales and open bars use the same names.
 */
export const SCALES: Readonly<Record<string, readonly number[]>> = {
  major: [0, 2, 4, 5, 7, 9, 11],
  minor: [0, 2, 3, 5, 7, 8, 10],
  "natural minor": [0, 2, 3, 5, 7, 8, 10],
  "harmonic minor": [0, 2, 3, 5, 7, 8, 11],
  "melodic minor": [0, 2, 3, 5, 7, 9, 11],
  ionian: [0, 2, 4, 5, 7, 9, 11],
  dorian: [0, 2, 3, 5, 7, 9, 10],
  phrygian: [0, 1, 3, 5, 7, 8, 10],
  lydian: [0, 2, 4, 6, 7, 9, 11],
  mixolydian: [0, 2, 4, 5, 7, 9, 10],
  aeolian: [0, 2, 3, 5, 7, 8, 10],
  locrian: [0, 1, 3, 5, 6, 8, 10],
  "major pentatonic": [0, 2, 4, 7, 9],
  "minor pentatonic": [0, 3, 5, 7, 10],
  "major blues": [0, 2, 3, 4, 7, 9],
  "minor blues": [0, 3, 5, 6, 7, 10],
  blues: [0, 3, 5, 6, 7, 10],
  octatonic: [0, 2, 3, 5, 6, 8, 9, 11],
  "whole tone": [0, 2, 4, 6, 8, 10],
  chromatic: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11],
};

/**
 * Reads a scale: a tonic and a name ("D dorian", "Bb minor blues"); a tonic alone is major. `own` are scales beside the table.
 *
 * Problems: KEY_NOT_READ, SCALE_UNKNOWN (with the nearest name).
 * @example scaleOf("D dorian") // { ok: true, value: { tonic: { letter: "D", alter: 0 }, name: "dorian", steps: [0, 2, 3, 5, 7, 9, 10] }, ... }
 */
export function scaleOf(text: string, own: Readonly<Record<string, readonly number[]>> = {}): Result<Scale> {
  const match = /^([A-Ga-g])(b|#|♭|♯)?(?:\s+([\p{L}\p{N}][\p{L}\p{N} -]*))?$/u.exec(text.trim());
  if (!match) {
    const message = sayOfKey("key-problem.key-not-read", { found: JSON.stringify(text.slice(0, 40)) });
    const meant = keyMeant(text);
    const remedy =
      meant === undefined
        ? sayOfKey("key-problem.key-not-read-remedy")
        : sayOfKey("key-problem.write", { text: meant });
    return failure(problem("KEY_NOT_READ", message, {}, remedy));
  }
  const name = (match[3] ?? "major").trim().replace(/\s+/g, " ");
  const table = new Map([...Object.entries(SCALES), ...Object.entries(own)]);
  const steps = table.get(name) ?? table.get(name.toLowerCase());
  if (!steps) {
    const near = nearestName(name, table.keys());
    const message = sayOfKey("key-problem.scale-unknown", { found: JSON.stringify(name) });
    const remedy =
      near === undefined
        ? sayOfKey("key-problem.write-one-of", { names: [...table.keys()] })
        : sayOfKey("key-problem.write", { text: near });
    return failure(problem("SCALE_UNKNOWN", message, {}, remedy));
  }
  const tonic: Key["tonic"] = { letter: match[1]!.toUpperCase() as "C", alter: alterOf(match[2] ?? "") };
  return success({ tonic, name: table.has(name) ? name : name.toLowerCase(), steps });
}

/** The canonical text of a scale, which `scaleOf` reads: "D dorian". */
export function scaleText(scale: Scale): string {
  return `${tonicText(scale.tonic)} ${scale.name}`;
}

/** "D", "Bb", "F#". */
export function tonicText(tonic: Key["tonic"]): string {
  return tonic.letter + accidentals(tonic.alter);
}

/** The pitch classes of a scale (semitones above C, 0 to 11), in the order of the scale. */
export function pitchClasses(scale: Scale): readonly number[] {
  const tonic = pitchClassOf(scale.tonic);
  return scale.steps.map((step) => (tonic + step) % 12);
}

/** The key that a text was meant for: "dorian D" is "D dorian", "Dm" is "D minor"; `undefined` when it is none. */
function keyMeant(text: string): string | undefined {
  const words = text.trim().split(/[\s_-]+/);
  const tonic = words.find((word) => /^[A-G](b|#|♭|♯)?$/.test(word));
  const name = words
    .filter((word) => word !== tonic)
    .join(" ")
    .toLowerCase();
  if (tonic !== undefined && Object.hasOwn(SCALES, name)) return `${tonic} ${name}`;
  const [, letter, quality] = /^([A-Ga-g](?:b|#|♭|♯)?)(m|min|maj|M)$/.exec(text.trim()) ?? [];
  if (letter === undefined) return undefined;
  return `${letter[0]!.toUpperCase()}${letter.slice(1)} ${quality === "m" || quality === "min" ? "minor" : "major"}`;
}
