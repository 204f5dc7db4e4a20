import { failure, success } from "../../base/index.js";
import { type Drill, type Rung, rungNumber, rungs, scoreOf, settingsText } from "../../drill/index.js";
import type { Label } from "../../formats/sound/index.js";
import type { Score } from "../../schema/index.js";
import { cautionsIn, type Words } from "../../words/index.js";
import { ENGLISH, type FileWords, rungWords } from "../fileWords.js";
import type { Result } from "../problem.js";
import { soundProblem } from "./codes.js";
import { sayProblem } from "./say.js";

/** Most files of one call: our choice; a day of music in files of a minute is fewer, and more is a mistake in a ladder. */
const MOST_FILES = 10000;
/** Most letters of a rung's settings in a file name, so that the name stays below the 255 bytes that file systems allow. */
const LONGEST_NAME = 80;

/** A sound file to be made. */
export interface SoundJob {
  /** Path in the output folder, with slashes, without file extension. */
  readonly file: string;
  readonly score: Score;
}

/** The files of a drill, in order. Each score is computed on request. */
export interface SoundJobs {
  readonly count: number;
  /** The path of a file, without computing its score. */
  fileAt(index: number): string;
  at(index: number): SoundJob;
}

/**
 * The sound files of a drill, one for every mix of every rung. The file name states the drill, rung and mix: `half-bar/03 tempo-84 listen`, the rung counted from 1.
 *
 * `mixes` and `rungs` select some of them; a file has the same name whatever the selection. Problem: TOO_MANY_SOUND_FILES above 10 000.
 * Throws `RangeError` for a mix or a rung the drill does not have.
 *
 * @example
 * soundJobs(drill).ok // true
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
    /** Indices of rungs, from 0. */
    readonly rungs?: readonly number[];
  } = {},
): Result<SoundJobs> {
  const ladder = rungs(drill);
  const count = (chosen?.length ?? ladder.count) * mixes.length;
  if (count > MOST_FILES) {
    const files = { most: String(MOST_FILES), drill: drill.name, found: String(count) };
    const message = sayProblem("sound-problem.too-many-sound-files", files);
    const remedy = sayProblem("sound-problem.too-many-sound-files-remedy");
    return failure(soundProblem("TOO_MANY_SOUND_FILES", message, {}, remedy));
  }
  const about = { ...(curriculum === undefined ? {} : { curriculum }), ...(edition === undefined ? {} : { edition }) };
  for (const mix of mixes)
    if (!drill.mixes.some(({ name }) => name === mix)) throw new RangeError(`drill ${drill.name} has no mix ${mix}`);
  const digits = String(ladder.count).length;
  const mixNames = distinctNames(drill.mixes.map((mix) => mix.name));
  const chosenAt = (index: number): { readonly rung: Rung; readonly mix: string } => {
    if (!(Number.isInteger(index) && index >= 0 && index < count))
      throw new RangeError(`there are files 0 to ${count - 1}, got ${index}`);
    const step = Math.floor(index / mixes.length);
    return { rung: ladder.at(chosen === undefined ? step : chosen[step]!), mix: mixes[index % mixes.length]! };
  };
  const fileAt = (index: number): string => {
    const { rung, mix } = chosenAt(index);
    const number = String(rungNumber(rung)).padStart(digits, "0");
    const settings = wordOfName(changing(drill, settingsText(rung.settings))).slice(0, LONGEST_NAME);
    const name = [number, settings, mixNames.get(mix)!].filter((word) => word !== "").join(" ");
    return `${fileName(drill.name)}/${name}`;
  };
  const at = (index: number): SoundJob => {
    const { rung, mix } = chosenAt(index);
    return { file: fileAt(index), score: { ...about, ...scoreOf(rung, mix) } };
  };
  return success({ count, fileAt, at });
}

/** The settings of a rung that the ladders of its drill change; the others are the same in every file. */
function changing(drill: Drill, settings: string): string {
  const climbs = new Set<string>(drill.ladders.map((ladder) => ladder.parameter));
  return settings
    .split(",")
    .filter((setting) => climbs.has(setting.split("=")[0]!))
    .join(" ");
}

/** A text as a file name: letters, digits and blanks stay, anything else becomes a hyphen. */
function fileName(text: string): string {
  return text
    .normalize("NFC")
    .replace(/[^\p{L}\p{N} ]+/gu, "-")
    .replace(/^[-\s]+|[-\s]+$/g, "");
}

/** A text as part of a file name. No blank stands beside a hyphen: what is added to a name, such as " - student", tells another file of the same mix. */
function wordOfName(text: string): string {
  return fileName(text).replace(/ *-[- ]*/g, "-");
}

/** The file name of each mix. A number is added where two names would be equal, also on file systems that ignore case. */
function distinctNames(names: readonly string[]): ReadonlyMap<string, string> {
  const taken = new Set<string>();
  return new Map(
    names.map((name) => {
      const plain = wordOfName(name) || "mix";
      let distinct = plain;
      for (let i = 2; taken.has(distinct.toLowerCase()); i++) distinct = `${plain} ${i}`;
      taken.add(distinct.toLowerCase());
      return [name, distinct] as const;
    }),
  );
}

/** The words of a sound file. */
export type SoundWords = FileWords & Pick<Words<"caution">, "word">;

/** The label of a score's sound file: title from the score, caution as comment. English when no words are given. */
export function labelOf({ curriculum, edition = "", drill, rung, mix }: Score, words: SoundWords = ENGLISH): Label {
  const named = { drill, rung: rungWords(rung, words), mix };
  return {
    title:
      curriculum === undefined
        ? words.say("sound.title", named)
        : words.say("sound.title-in-course", { ...named, course: `${curriculum} ${edition}`.trim() }),
    comment: cautionsIn(words).join(" "),
    software: "leeway",
  };
}
