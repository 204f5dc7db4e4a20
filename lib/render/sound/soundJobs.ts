import { failure, type Result, success } from "../../base/index.js";
import { type Drill, type Rung, rungs, scoreOf, settingsText } from "../../drill/index.js";
import type { Label } from "../../formats/sound/index.js";
import type { Score } from "../../schema/index.js";
import { soundProblem } from "./codes.js";

/** Files made at once: our choice; a day of music at a minute each is fewer, and more is a slip of the pen in a ladder. */
const MOST_FILES = 10000;
/** Letters of a rung's settings kept in a file name, so that the whole stays below the 255 bytes file systems allow. */
const LONGEST_NAME = 80;

/** A sound file to be made. */
export interface SoundJob {
  /** Path below the output folder, with slashes, without the ending. */
  readonly file: string;
  readonly score: Score;
}

/** The files of a drill, in order; each score is made when it is asked for. */
export interface SoundJobs {
  readonly count: number;
  /** The path of a file, without making its score. */
  fileAt(index: number): string;
  at(index: number): SoundJob;
}

/**
 * Every mix of every rung of a drill, each with a file name that says which: `half-bar/03 tempo-84 listen`.
 *
 * `mixes` and `rungs` choose some; the names of a file do not depend on the choice. Problem: TOO_MANY_SOUND_FILES, above 10 000.
 * Throws `RangeError` for a mix or a rung the drill does not have.
 */
export function soundJobs(
  drill: Drill,
  {
    curriculum,
    edition,
    mixes = drill.mixes.map((mix) => mix.name),
    rungs: chosen,
  }: {
    readonly curriculum?: string;
    readonly edition?: string;
    readonly mixes?: readonly string[];
    /** Indices of rungs. */
    readonly rungs?: readonly number[];
  } = {},
): Result<SoundJobs> {
  const ladder = rungs(drill);
  const count = (chosen?.length ?? ladder.count) * mixes.length;
  if (count > MOST_FILES) {
    const message = `cannot be rendered at once: at most ${MOST_FILES} files are, drill ${drill.name} has ${count}`;
    return failure(soundProblem("TOO_MANY_SOUND_FILES", message, {}, "choose rungs or mixes"));
  }
  const about = { ...(curriculum === undefined ? {} : { curriculum }), ...(edition === undefined ? {} : { edition }) };
  for (const mix of mixes)
    if (!drill.mixes.some(({ name }) => name === mix)) throw new RangeError(`drill ${drill.name} has no mix ${mix}`);
  const digits = String(ladder.count - 1).length;
  const mixNames = distinctNames(drill.mixes.map((mix) => mix.name));
  const chosenAt = (index: number): { readonly rung: Rung; readonly mix: string } => {
    if (!(Number.isInteger(index) && index >= 0 && index < count))
      throw new RangeError(`there are files 0 to ${count - 1}, got ${index}`);
    const step = Math.floor(index / mixes.length);
    return { rung: ladder.at(chosen === undefined ? step : chosen[step]!), mix: mixes[index % mixes.length]! };
  };
  const fileAt = (index: number): string => {
    const { rung, mix } = chosenAt(index);
    const number = String(rung.index).padStart(digits, "0");
    const settings = fileName(changing(drill, settingsText(rung.settings))).slice(0, LONGEST_NAME);
    const name = [number, settings, mixNames.get(mix)!].filter((word) => word !== "").join(" ");
    return `${fileName(drill.name)}/${name}`;
  };
  const at = (index: number): SoundJob => {
    const { rung, mix } = chosenAt(index);
    return { file: fileAt(index), score: { ...about, ...scoreOf(rung, mix) } };
  };
  return success({ count, fileAt, at });
}

/** Of a rung's settings those that its drill's ladders change; the others are the same for every file of the drill. */
function changing(drill: Drill, settings: string): string {
  const climbs = new Set<string>(drill.ladders.map((ladder) => ladder.parameter));
  return settings
    .split(",")
    .filter((setting) => climbs.has(setting.split("=")[0]!))
    .join(" ");
}

/** Names for files: letters and digits stay, all else becomes a hyphen. */
function fileName(text: string): string {
  return text
    .normalize("NFC")
    .replace(/[^\p{L}\p{N} ]+/gu, "-")
    .replace(/^[-\s]+|[-\s]+$/g, "");
}

/** File names of mixes; a number is added where two would be the same, also for file systems that do not tell capitals apart. */
function distinctNames(names: readonly string[]): ReadonlyMap<string, string> {
  const taken = new Set<string>();
  return new Map(
    names.map((name) => {
      const plain = fileName(name) || "mix";
      let distinct = plain;
      for (let i = 2; taken.has(distinct.toLowerCase()); i++) distinct = `${plain} ${i}`;
      taken.add(distinct.toLowerCase());
      return [name, distinct] as const;
    }),
  );
}

/** The usual caution, written into every sound file and record; local rules and licensed practice come first. */
export const CAUTION: string =
  "Play it back no louder than you need to hear it beside your instrument, rest your ears and hands between takes, and stop when " +
  "anything hurts or your ears ring. The rules of your school, employer or country on sound levels and breaks come first.";

/** The label of a score's sound file, in the words of the score. */
export function labelOf(score: Score): Label {
  const course = score.curriculum === undefined ? "" : `${score.curriculum} ${score.edition ?? ""}`.trim() + ", ";
  return {
    title: `${course}${score.drill}, ${score.rung}, mix ${score.mix}`,
    comment: CAUTION,
    software: "leeway",
  };
}
