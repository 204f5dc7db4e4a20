import { failure, nearestName, success } from "../base/index.js";
import { problem } from "./codes.js";
import { readTonic } from "./keyText.js";
import type { Scale } from "./model.js";
import type { Result } from "./problem.js";
import { sayOfKey } from "./sayPitch.js";
import { SCALE_TABLE } from "./scaleTable.js";

/** Scale name -> semitones above the tonic. Keys, scales and open bars use the same names, other names of a scale too. */
export const SCALES: Readonly<Record<string, readonly number[]>> = Object.fromEntries(
  SCALE_TABLE.flatMap(([steps, , ...names]) => names.map((name) => [name, steps.split(" ").map(Number)] as const)),
);

/** The scales of the table, each once: its name, its other names, its steps in semitones above the tonic. */
export const KNOWN_SCALES: readonly {
  readonly name: string;
  readonly otherNames: readonly string[];
  readonly steps: readonly number[];
}[] = SCALE_TABLE.map(([, , name = "", ...otherNames]) => ({ name, otherNames, steps: SCALES[name]! }));

/**
 * Reads a scale: a tonic and a name ("D dorian", "Bb minor blues"); a tonic alone is major. `own` are scales beside the table.
 *
 * Problems: KEY_NOT_READ, SCALE_UNKNOWN (with the nearest name).
 * @example scaleOf("D dorian") // { ok: true, value: { tonic: { letter: "D", alter: 0 }, name: "dorian", steps: [0, 2, 3, 5, 7, 9, 10] }, ... }
 */
export function scaleOf(text: string, own: Readonly<Record<string, readonly number[]>> = {}): Result<Scale> {
  const read = readTonic(text);
  for (const name of read === undefined ? [] : [read.name, read.name.toLowerCase()]) {
    // A scale of the course goes before one of the table.
    const steps = Object.hasOwn(own, name) ? own[name] : Object.hasOwn(SCALES, name) ? SCALES[name] : undefined;
    if (steps !== undefined) return success({ tonic: read!.tonic, name, steps });
  }
  return unreadScale(text, read?.name, own);
}

/** Why a text is no scale. */
function unreadScale(
  text: string,
  name: string | undefined,
  own: Readonly<Record<string, readonly number[]>>,
): Result<never> {
  if (name === undefined) {
    const message = sayOfKey("key-problem.key-not-read", { found: JSON.stringify(text.slice(0, 40)) });
    const meant = keyMeant(text);
    const remedy =
      meant === undefined
        ? sayOfKey("key-problem.key-not-read-remedy")
        : sayOfKey("key-problem.write", { text: meant });
    return failure(problem("KEY_NOT_READ", message, {}, remedy));
  }
  const near =
    (Object.hasOwn(SHORT, name.toLowerCase()) ? SHORT[name.toLowerCase()] : undefined) ??
    nearestName(name, new Set([...Object.keys(SCALES), ...Object.keys(own)]));
  const message = sayOfKey("key-problem.scale-unknown", { found: JSON.stringify(name) });
  const remedy =
    near === undefined
      ? sayOfKey("key-problem.scale-unknown-remedy", { names: [...Object.keys(own), ...USUAL_SCALES] })
      : sayOfKey("key-problem.write", { text: near });
  return failure(problem("SCALE_UNKNOWN", message, {}, remedy));
}

/** Scales named in a remedy: those a beginner meets. */
const USUAL_SCALES = ["major", "minor", "dorian", "mixolydian", "major pentatonic", "minor pentatonic", "blues"];

/** Short and German names of the two modes. */
const SHORT: Readonly<Record<string, string>> = {
  m: "minor",
  min: "minor",
  moll: "minor",
  mi: "minor",
  maj: "major",
  dur: "major",
  ma: "major",
};

/** The key that a text was meant for: "dorian D" is "D dorian", "Dm" is "D minor"; `undefined` when it is none. */
function keyMeant(text: string): string | undefined {
  const words = text
    .trim()
    .replace(/^(in |the )?(key of )?/i, "")
    .replace(
      /^([A-Ga-g])[ -]?(flat|sharp)\b/i,
      (_, letter, sign) => `${letter}${sign.toLowerCase() === "flat" ? "b" : "#"}`,
    )
    .split(/[\s_-]+/)
    .map((word, i) => (i === 0 && /^[a-g](b|#|♭|♯)?$/.test(word) ? `${word[0]!.toUpperCase()}${word.slice(1)}` : word));
  const tonic = words.find((word) => /^[A-G](b|#|♭|♯)?$/.test(word));
  const name = words
    .filter((word) => word !== tonic)
    .join(" ")
    .toLowerCase();
  if (tonic !== undefined && name === "") return `${tonic} major`;
  if (tonic !== undefined && Object.hasOwn(SHORT, name)) return `${tonic} ${SHORT[name]}`;
  if (tonic !== undefined && Object.hasOwn(SCALES, name)) return `${tonic} ${name}`;
  const [, letter, quality] = /^([A-Ga-g](?:b|#|♭|♯)?)(m|min|maj|M)$/.exec(text.trim()) ?? [];
  if (letter === undefined) return undefined;
  return `${letter[0]!.toUpperCase()}${letter.slice(1)} ${quality === "m" || quality === "min" ? "minor" : "major"}`;
}
