import { rootOf } from "./chordSymbol.js";
import type { Interval } from "./model.js";
import { pitchClassOf } from "./pitch.js";

/** Semitones from the root to each degree of the major scale, ninths and beyond as seconds and beyond: the key does not matter to a voicing. */
const MAJOR: Readonly<Record<number, number>> = { 1: 0, 2: 2, 3: 4, 4: 5, 5: 7, 6: 9, 7: 11, 9: 14, 11: 17, 13: 21 };

/**
 * The notes of a chord by its quality ("m7b5"), as intervals from the root, lowest degree first; the root and the fifth of a chord of five notes and more are left to the
 * bass. Chord scales of harmony textbooks, from memory; a word that is not known adds nothing.
 *
 * @example chordTones("m7").map(({ chromatic }) => chromatic) // [0, 3, 7, 10]
 */
export function chordTones(quality: string): readonly Interval[] {
  const all = quality
    .replaceAll("♭", "b")
    .replaceAll("♯", "#")
    .replace(/[(),\s]/g, "")
    .replace(/[Mm]aj|ma(?!j)|M|Δ/g, "^");
  const kind = /^(?:min|mi|m|-|dim|°|o(?!mit)|ø|aug|\+)/.exec(all)?.[0] ?? "";
  const text = all.slice(kind.length);
  const isHalf = kind === "ø";
  const isDiminished = isHalf || ["dim", "°", "o"].includes(kind);
  const isMinor = isDiminished || ["min", "mi", "m", "-"].includes(kind);
  const isAugmented = kind === "aug" || kind === "+";
  const degrees = new Map<number, number>([
    [1, 0],
    [3, isMinor ? -1 : 0],
    [5, isDiminished ? -1 : isAugmented ? 1 : 0],
  ]);
  const highest = Number(/(?<![b#+-])(?<!add|sus|omit|no)(13|11|9|7)/.exec(text)?.[1] ?? 0);
  const isSixth = /(?<![b#])6/.test(text);
  if (isSixth) degrees.set(6, 0);
  if (isHalf || (highest > 0 && !(isSixth && highest === 9)))
    degrees.set(7, text.includes("^") ? 0 : isDiminished && !isHalf ? -2 : -1);
  // An eleventh over a major third is left out unless it is written as such: the two rub (common practice, no source).
  for (const degree of [9, 11, 13]) if (highest >= degree && !(degree === 11 && highest === 13)) degrees.set(degree, 0);
  if (text.includes("alt")) for (const [degree, alter] of ALTERED) degrees.set(degree, alter);
  const sus = /sus([24]?)/.exec(text);
  if (sus !== null) {
    degrees.delete(3);
    degrees.set(sus[1] === "2" ? 2 : 4, 0);
  }
  for (const [, sign, degree] of text.matchAll(/([b#+-])(5|9|11|13)/g))
    degrees.set(Number(degree), sign === "b" || sign === "-" ? -1 : 1);
  for (const [, degree] of text.matchAll(/add(2|4|6|9|11|13)/g)) degrees.set(Number(degree), 0);
  for (const [, degree] of text.matchAll(/(?:omit|no)([35])/g)) degrees.delete(Number(degree));
  if (text === "5") degrees.delete(3);
  if (highest === 11 && !isMinor && degrees.get(11) === 0) degrees.delete(3);
  for (const spare of [1, 5]) if (degrees.size > 4 && degrees.get(spare) === 0) degrees.delete(spare);
  return [...degrees]
    .sort(([a], [b]) => a - b)
    .map(([degree, alter]) => ({ diatonic: degree - 1, chromatic: MAJOR[degree]! + alter }));
}

/** What an altered dominant has: a seventh, a flat fifth and both altered ninths would be five; these are its colour. */
const ALTERED: readonly (readonly [degree: number, alter: number])[] = [
  [5, 1],
  [7, -1],
  [9, 1],
];

/** The pitch classes of a chord symbol (semitones above C, 0 to 11), its root first; `undefined` for "N.C." and what is no chord symbol. */
export function chordPitchClasses(text: string): readonly number[] | undefined {
  const root = rootOf(text);
  if (root === undefined) return undefined;
  const from = pitchClassOf(root.pitch);
  return [...new Set([0, ...chordTones(root.quality).map(({ chromatic }) => chromatic)])].map(
    (step) => (from + step) % 12,
  );
}
