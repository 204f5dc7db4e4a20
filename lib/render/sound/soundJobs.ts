import { failure, success } from "../../base/index.js";
import { type Drill, type Parameter, type Rung, rungNumber, rungs, type Settings, scoreOf } from "../../drill/index.js";
import type { Label } from "../../formats/sound/index.js";
import type { Score } from "../../schema/index.js";
import { cautionsIn, type Words } from "../../words/index.js";
import { ENGLISH, type FileWords, rungWords } from "../fileWords.js";
import type { Result } from "../problem.js";
import { caseless, webName } from "../webName.js";
import { soundProblem } from "./codes.js";
import { sayProblem } from "./say.js";

/** Most files of one call: our choice; a day of music in files of a minute is fewer, and more is a mistake in a ladder. */
const MOST_FILES = 10000;
/** Most bytes of the words in a file name: with a number and the name of an instrument they stay below the 255 bytes that file systems allow. */
const MOST_BYTES = { drill: 50, settings: 60, mix: 40 } as const;

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
  /** The name of a file's rung, for a folder: its number, and the settings that climb. */
  rungAt(index: number): string;
  /** The file name, without folder, of what a rung has in common in all its mixes. */
  everyMixAt(index: number): string;
  at(index: number): SoundJob;
}

/**
 * The sound files of a drill, one for every mix of every rung. The file name states the rung, counted from 1, the drill, the settings that climb, and the
 * mix, so that it says what it is in any folder: `half-bar/03-half-bar-plain-84-listen`. It holds small letters, digits and hyphens.
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
    /** Rungs or preparations of the drill; a number is the index of a rung, from 0. */
    readonly rungs?: readonly (number | Rung)[];
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
  const digits = Math.max(2, String(ladder.count).length);
  const mixNames = distinctNames(drill.mixes.map((mix) => mix.name));
  const drillName = webName(drill.name, MOST_BYTES.drill) || "drill";
  const chosenAt = (index: number): { readonly rung: Rung; readonly mix: string } => {
    if (!(Number.isInteger(index) && index >= 0 && index < count))
      throw new RangeError(`there are files 0 to ${count - 1}, got ${index}`);
    const step = Math.floor(index / mixes.length);
    const own = chosen === undefined ? step : chosen[step]!;
    return { rung: typeof own === "number" ? ladder.at(own) : own, mix: mixes[index % mixes.length]! };
  };
  const wordsAt = ({ rung }: { readonly rung: Rung }): { readonly number: string; readonly settings: string } => ({
    number: String(rungNumber(rung)).padStart(digits, "0"),
    settings: webName(changing(drill, rung.settings), MOST_BYTES.settings),
  });
  const joined = (...words: readonly string[]): string => words.filter((word) => word !== "").join("-");
  const fileAt = (index: number): string => {
    const chosen = chosenAt(index);
    const { number, settings } = wordsAt(chosen);
    return `${drillName}/${joined(number, drillName, settings, mixNames.get(chosen.mix)!)}`;
  };
  const rungAt = (index: number): string => {
    const { number, settings } = wordsAt(chosenAt(index));
    return joined(number, settings);
  };
  const everyMixAt = (index: number): string => {
    const { number, settings } = wordsAt(chosenAt(index));
    return joined(number, drillName, settings);
  };
  const at = (index: number): SoundJob => {
    const { rung, mix } = chosenAt(index);
    return { file: fileAt(index), score: { ...about, ...scoreOf(rung, mix) } };
  };
  return success({ count, fileAt, rungAt, everyMixAt, at });
}

/** The settings of a rung that are not the same on all rungs of its drill, as words. The tempo is the last. */
function changing(drill: Drill, settings: Settings): string {
  return (Object.keys(settings) as readonly Parameter[])
    .filter((parameter) => settings[parameter] !== drill.fixed[parameter])
    .sort((a, b) => Number(a === "tempo") - Number(b === "tempo"))
    .map((parameter) => spelt[parameter](settings[parameter]!))
    .join(" ");
}

/** How a value is told in a file name, where no slash and no sharp can stand. */
const spelt: Readonly<Record<Parameter, (value: string) => string>> = {
  tempo: (value) => value,
  variant: (value) => value,
  // What grows inside a take is told from where to where: "0.5 to 1.5 bars".
  dropout: (value) =>
    value
      .replace(/(?: by .+)? each \d+ phrases?$/, "")
      .replace(/(?:(\d+) )?(\d+)\/(\d+)(?= (?:bar|beat))/g, inDecimals)
      .replace(/ (?:bars?|beats?)(?= to )/, ""),
  key: (value) => value.replace(/^([A-G])([#b])?/, (_, letter, sign) => `${letter}${SIGNS[sign] ?? ""}`),
  mix: (value) => value,
  parts: (value) => value.replace(/ each \d+ phrases?$/, "").replaceAll(">", "then"),
  rise: (value) => (value === "none" ? "steady" : `rise ${value}`),
  open: (value) => `open ${value}`,
};

const SIGNS: Readonly<Record<string, string>> = { "#": " sharp", b: " flat" };

/** "1 1/2" is 1.5; a number that has no end in decimals stays as it is. */
function inDecimals(found: string, whole: string | undefined, upper: string, lower: string): string {
  const value = Number(whole ?? 0) + Number(upper) / Number(lower);
  const decimals = String(value);
  return decimals.length <= 5 ? decimals : found;
}

/** The file name of each mix. A number is added where two names would be equal, also on file systems that ignore case. */
function distinctNames(names: readonly string[]): ReadonlyMap<string, string> {
  const taken = new Set<string>();
  return new Map(
    names.map((name) => {
      const plain = webName(name, MOST_BYTES.mix) || "mix";
      let distinct = plain;
      for (let i = 2; taken.has(caseless(distinct)); i++) distinct = `${plain}-${i}`;
      taken.add(caseless(distinct));
      return [name, distinct] as const;
    }),
  );
}

/** The words of a sound file. */
export type SoundWords = FileWords & Pick<Words<"caution">, "word">;

/** Who made a course, and what people call it and its drills, for the labels of its files. */
export interface Makers {
  /** Title of the course; its name where left out. */
  readonly course?: string | undefined;
  /** Titles of its drills by their names. */
  readonly drills?: Readonly<Record<string, string>> | undefined;
  readonly author?: string;
  readonly arranger?: string;
  readonly copyright?: string;
  readonly licence?: string;
}

/** The label of a score's sound file: title from the score, caution as comment. English when no words are given. */
export function labelOf(
  { curriculum, edition = "", drill, rung, mix, tempo }: Score,
  words: SoundWords = ENGLISH,
  { author, arranger, copyright, licence, course = curriculum, drills = {} }: Makers = {},
): Label {
  const makers = [...new Set([author, arranger])].filter((name) => name !== undefined).join(", ");
  const named = { drill: drills[drill] ?? drill, rung: rungWords(rung, words), mix };
  return {
    title:
      course === undefined
        ? words.say("sound.title", named)
        : words.say("sound.title-in-course", { ...named, course: `${course} ${edition}`.trim() }),
    comment: cautionsIn(words).join(" "),
    software: "leeway",
    tempo,
    course,
    author: makers === "" ? undefined : makers,
    copyright,
    licence,
  };
}
