import { failure, type Result, success } from "../base/index.js";
import { problem } from "./codes.js";
import { formerInterval } from "./former/interval.js";
import type { Interval } from "./model.js";
import { opposite } from "./pitch.js";
import { say } from "./say.js";

/** Names of intervals up to the octave, by staff steps, with the semitones of the major or perfect one. */
const NUMBERS: readonly (readonly [name: string, semitones: number, kind: "perfect" | "major"])[] = [
  ["unison", 0, "perfect"],
  ["second", 2, "major"],
  ["third", 4, "major"],
  ["fourth", 5, "perfect"],
  ["fifth", 7, "perfect"],
  ["sixth", 9, "major"],
  ["seventh", 11, "major"],
];

/** Semitones that a quality adds to the perfect or the major interval. */
const QUALITIES: Readonly<Record<"perfect" | "major", Readonly<Record<string, number>>>> = {
  perfect: { perfect: 0, augmented: 1, diminished: -1 },
  major: { major: 0, minor: -1, augmented: 1, diminished: -2 },
};

/** Octaves in words. Our choice: no instrument transposes by more than three. */
const OCTAVES = ["", "octave", "two octaves", "three octaves"];

const AS_WRITTEN = "as written";

/**
 * Reads how far a sounding note lies from the written one: "major second lower", "octave higher", "octave and a major second lower", "two octaves
 * lower", "as written". A and an may be left out or written.
 *
 * Problems: INTERVAL_NOT_READ, also for a quality the number does not have (perfect third); FORMER_SPELLING for "-M2", with the words.
 * @example parseInterval("major second lower") // { ok: true, value: { diatonic: -1, chromatic: -2 }, ... }
 */
export function parseInterval(text: string): Result<Interval> {
  const words = text
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => !["", "a", "an"].includes(word));
  const read = intervalIn(words.join(" "));
  if (read) return success(read);
  const found = JSON.stringify(text.slice(0, 40));
  const rewritten = rewriteInterval(text);
  if (rewritten !== undefined) {
    const message = say("pattern-problem.former-spelling-of-interval", { found });
    const remedy = say("pattern-problem.write-line", { text: rewritten });
    return failure(problem("FORMER_SPELLING", message, {}, remedy));
  }
  const message = say("pattern-problem.interval-not-read", { found });
  const remedy = say("pattern-problem.interval-not-read-remedy");
  return failure(problem("INTERVAL_NOT_READ", message, {}, remedy));
}

/** The words of an interval of up to three octaves, which `parseInterval` reads. */
export function intervalText(interval: Interval): string {
  const isDown = interval.diatonic < 0 || (interval.diatonic === 0 && interval.chromatic < 0);
  const { diatonic, chromatic } = isDown ? opposite(interval) : interval;
  const octaves = Math.floor(diatonic / 7);
  const [number, semitones, kind] = NUMBERS[diatonic - 7 * octaves]!;
  const beyond = chromatic - 12 * octaves - semitones;
  const quality = Object.entries(QUALITIES[kind]).find(([, shift]) => shift === beyond)?.[0];
  const octave = OCTAVES[octaves];
  if (quality === undefined || octave === undefined)
    throw new RangeError(`no words for ${interval.diatonic} steps and ${interval.chromatic} semitones`);
  const isOctaves = number === "unison" && quality === "perfect";
  if (isOctaves && octaves === 0) return AS_WRITTEN;
  const rest = `${quality} ${number}`;
  const size = octaves === 0 ? rest : isOctaves ? octave : `${octave} and ${article(quality)} ${rest}`;
  return `${size} ${isDown ? "lower" : "higher"}`;
}

/** An interval of the former spelling in words; `undefined` for another text. */
export function rewriteInterval(text: string): string | undefined {
  const former = formerInterval(text);
  return former && intervalText(former);
}

function intervalIn(words: string): Interval | undefined {
  if (words === AS_WRITTEN) return { diatonic: 0, chromatic: 0 };
  const [, size = "", direction] = /^(.+) (lower|higher)$/.exec(words) ?? [];
  const octaves = OCTAVES.findLastIndex((each) => each !== "" && (size === each || size.startsWith(`${each} and `)));
  const count = Math.max(0, octaves);
  const rest = octaves < 0 ? size : size.slice(OCTAVES[octaves]!.length).replace(/^ and /, "");
  const within = rest === "" && count > 0 ? { diatonic: 0, chromatic: 0 } : withinOctave(rest);
  if (direction === undefined || within === undefined) return undefined;
  const up = { diatonic: within.diatonic + 7 * count, chromatic: within.chromatic + 12 * count };
  return direction === "lower" ? opposite(up) : up;
}

/** "major second", upwards. */
function withinOctave(words: string): Interval | undefined {
  const [quality = "", name, more] = words.split(" ");
  const diatonic = NUMBERS.findIndex(([each]) => each === name);
  if (diatonic < 0 || more !== undefined) return undefined;
  const [, semitones, kind] = NUMBERS[diatonic]!;
  const shifts = QUALITIES[kind];
  return Object.hasOwn(shifts, quality) ? { diatonic, chromatic: semitones + shifts[quality]! } : undefined;
}

function article(word: string): string {
  return /^[aeiou]/.test(word) ? "an" : "a";
}
