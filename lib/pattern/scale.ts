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
  const meant = scaleMeant(text, own);
  const isNamed = (each: string): boolean => Object.hasOwn(SCALES, each.toLowerCase()) || Object.hasOwn(own, each);
  if (name === undefined) {
    const message = sayOfKey("key-problem.key-not-read", { found: JSON.stringify(text.slice(0, 40)) });
    const remedy =
      meant === undefined
        ? sayOfKey("key-problem.key-not-read-remedy", { example: `D ${isNamed(text.trim()) ? text.trim() : "dorian"}` })
        : sayOfKey("key-problem.write", { text: meant });
    return failure(problem("KEY_NOT_READ", message, {}, remedy));
  }
  const near = nearestName(name, new Set([...Object.keys(SCALES), ...Object.keys(own)]));
  const message = sayOfKey("key-problem.scale-unknown", { found: JSON.stringify(name) });
  const tonic = text.trim().slice(0, -name.length).trim();
  const remedy =
    meant !== undefined || near !== undefined
      ? sayOfKey("key-problem.write", { text: meant ?? `${tonic} ${near}` })
      : sayOfKey("key-problem.scale-unknown-remedy", { names: [...Object.keys(own), ...USUAL_SCALES] });
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

/** Words around the name of a scale that say nothing of it. */
const AROUND: ReadonlySet<string> = new Set(["the", "a", "in", "of", "on", "key", "scale", "mode"]);

/** Most words of a name that are tried in every order. Our choice: no scale with more is named in another order. */
const MOST_WORDS = 4;

/**
 * The key or scale that a text was meant for: "dorian D" is "D dorian", "Dm" is "D minor", "Gm blues" and "G blues minor scale" are "G minor blues";
 * `undefined` when it is none.
 */
function scaleMeant(text: string, own: Readonly<Record<string, readonly number[]>>): string | undefined {
  const words = inEnglish(text.trim())
    .replace(/\b([A-Ga-g])[ -]?(flat|sharp)\b/i, (_, letter, sign) => `${letter}${/flat/i.test(sign) ? "b" : "#"}`)
    .split(/[\s_-]+/)
    .filter((word) => !AROUND.has(word.toLowerCase()) || word === "A");
  const found = words
    .map((word, i) => TONIC.exec(word) ?? (i === 0 ? TONIC.exec(capital(word)) : null))
    .map((match, i) => match && { at: i, tonic: match[1]!, quality: match[2] })
    .find((each) => each !== null);
  if (!found) return undefined;
  const { at, tonic, quality } = found;
  const named = [
    ...(quality === undefined ? [] : [quality === "M" ? "major" : quality]),
    ...words.filter((_, i) => i !== at),
  ]
    .map((word) => word.toLowerCase())
    .map((word) => (Object.hasOwn(SHORT, word) ? SHORT[word]! : word));
  if (named.length === 0) return `${tonic} major`;
  // A mode with the word for its third beside it: "G minor dorian".
  const bare = named.filter((word) => word !== "minor" && word !== "major");
  const name = [...(named.length > MOST_WORDS ? [named] : ordersOf(named)), bare]
    .map((order) => order.join(" "))
    .find((each) => Object.hasOwn(SCALES, each) || Object.hasOwn(own, each));
  return name && `${tonic} ${name}`;
}

/** A key with the German name of its tonic in English: "B-Dur" is Bb, "h-Moll" B, "Es-Dur" Eb, "fis-Moll" F#. In other scales only H is German beyond doubt. */
function inEnglish(text: string): string {
  const [, letter, sign = "", rest = ""] = /^([A-H])(is|es|s)?([\s_-]+(?:dur|moll)\b.*)$/i.exec(text) ?? [];
  if (letter === undefined) return text.replace(/^h(?=[\s_-])/i, "B");
  const tonic = letter.toUpperCase();
  if (tonic === "H") return `B${rest}`;
  return `${tonic}${sign === "" ? (tonic === "B" ? "b" : "") : /is/i.test(sign) ? "#" : "b"}${rest}`;
}

/** A tonic, perhaps with the sign of a minor or major chord. */
const TONIC = /^([A-G](?:b|#|♭|♯)?)(m|min|maj|M)?$/;

function capital(word: string): string {
  return word.slice(0, 1).toUpperCase() + word.slice(1);
}

/** All orders of some words, theirs first. */
function ordersOf(words: readonly string[]): readonly (readonly string[])[] {
  if (words.length < 2) return [words];
  return words.flatMap((word, i) => ordersOf(words.filter((_, j) => j !== i)).map((rest) => [word, ...rest]));
}
