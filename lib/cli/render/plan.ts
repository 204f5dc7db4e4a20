import { failure, failureIn, type Problem, placedUnder, problemsOf, type Result, success } from "../../base/index.js";
import { type Curriculum, findDrill } from "../../curriculum/index.js";
import { type Drill, findMix, findRung, type Rung, rungs } from "../../drill/index.js";
import { type Instrument, instrumentNamed, unknownInstrument } from "../../pattern/index.js";
import { fittingOctave } from "../../render/index.js";
import { type SoundJobs, soundJobs } from "../../render/sound/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";
import { type FOLDERS, namesIn, type RenderNames } from "./names.js";

const problem = problemsOf(fileCodes);

export const FORMATS = [
  "midi",
  "musicxml",
  "chart",
  "wav",
  "flac",
  "mp3",
  "m4a",
  "opus",
  "ogg",
  "pdf",
  "svg",
  "mp4",
  "webm",
] as const;
/** The formats that sound. */
export const SOUNDS = ["wav", "flac", "mp3", "m4a", "opus", "ogg"] as const;
/** The formats that are films. */
export const FILMS = ["mp4", "webm"] as const;
export type Format = (typeof FORMATS)[number];
export const PAPERS = ["a4", "letter"] as const;

export interface RenderOptions {
  readonly as: readonly Format[];
  readonly out: string;
  readonly mix?: readonly string[];
  readonly for?: readonly string[];
  /** "1-10", counted from 1. */
  readonly rungs?: string;
  /** Path of a sound bank. */
  readonly bank?: string;
  /** Sound: so many phrases that follow on themselves, in place of whole takes. */
  readonly loop?: number;
  /** LUFS. */
  readonly loudness?: number;
  readonly paper: (typeof PAPERS)[number];
  readonly largePrint?: boolean;
  /** A font file for letters that the built-in ones lack. */
  readonly font?: string;
  /** Films: higher than wide. */
  readonly upright?: boolean;
  readonly folders: (typeof FOLDERS)[number];
}

/** The player for whom the student's part is written. */
export interface Player {
  readonly instrument: Instrument;
  readonly octave: number;
}

/** A drill with its rungs and mixes to render, and the players who read it. */
export interface PlannedDrill {
  readonly drill: Drill;
  /** Preparations too, where one was asked for. */
  readonly rungs: readonly Rung[];
  readonly mixes: readonly string[];
  /** The named players, else those of the drill; without duplicates. */
  readonly players: readonly Player[];
}

export interface RenderPlan {
  /** The file of the course. */
  readonly file: string;
  readonly course: Curriculum;
  readonly names: RenderNames;
  /** Whether no drill was named, so that the files are of the whole course. */
  readonly isWhole: boolean;
  readonly drills: readonly PlannedDrill[];
}

/** Most files of one format without a range of rungs: our choice; more is probably a typing error in a ladder. */
const MOST_FILES = 1000;
/** Most files of one format with a range of rungs, which shows the intention. */
const MOST_FILES_EVER = 10_000;

/** Resolves a command line to a plan; every name is looked up before anything is rendered. */
export function planOf(
  course: Curriculum,
  names: { readonly file: string; readonly drill: string | undefined; readonly rung: string | undefined },
  options: RenderOptions,
): Result<RenderPlan> {
  const { file } = names;
  const named = names.drill === undefined ? undefined : findDrill(course, names.drill);
  if (named?.ok === false) return failureIn(file, named.problems);
  const problems: Problem[] = [];
  const drills: PlannedDrill[] = [];
  for (const drill of named === undefined ? course.drills : [named.value]) {
    const planned = planDrill(drill, { course, rung: names.rung }, options);
    if (planned.ok) drills.push(planned.value);
    else problems.push(...planned.problems.map((each) => placedUnder(each, "", file)));
  }
  const most = options.rungs === undefined ? MOST_FILES : MOST_FILES_EVER;
  const count = drills.reduce((sum, { rungs, mixes }) => sum + rungs.length * mixes.length, 0);
  if (count > most) problems.push(tooMany(count, most, file));
  return problems.length > 0
    ? { ok: false, problems }
    : success({ file, course, names: namesIn(course, options.folders), isWhole: named === undefined, drills });
}

function planDrill(
  drill: Drill,
  { course, rung }: { course: Curriculum; rung: string | undefined },
  options: RenderOptions,
): Result<PlannedDrill> {
  const found = rung === undefined ? rungRange(drill, options.rungs) : oneRung(drill, rung);
  const problems: Problem[] = found.ok ? [] : [...found.problems];
  const mixes = [...new Set(options.mix ?? drill.mixes.map(({ name }) => name))];
  for (const name of mixes) {
    const mix = findMix(drill, name);
    if (!mix.ok) problems.push(...mix.problems);
  }
  const players = playersOf(drill, course, options.for);
  if (!players.ok) problems.push(...players.problems);
  if (!found.ok || !players.ok || problems.length > 0) return { ok: false, problems };
  return success({ drill, rungs: found.value, mixes, players: players.value });
}

function oneRung(drill: Drill, text: string): Result<readonly Rung[]> {
  const found = findRung(drill, text);
  return found.ok ? success([found.value]) : found;
}

/** The rungs of a drill, or a range of them; a problem when there are too many. */
function rungRange(drill: Drill, text: string | undefined): Result<readonly Rung[]> {
  const all = rungs(drill);
  const { count } = all;
  const match =
    text === undefined ? ["", "1", String(count)] : /^\s*(\d{1,15})\s*(?:[-–]\s*(\d{1,15}))?\s*$/.exec(text);
  const [from, to] = [Number(match?.[1]), Number(match?.[2] ?? match?.[1])];
  if (!match || from < 1 || from > to || to > count) {
    const range = { drill: drill.name, count: String(count), found: JSON.stringify(text) };
    const message = sayProblem("cli-problem.rung-range-not-read", range);
    const remedy = sayProblem("cli-problem.rung-range-not-read-remedy", { count: String(count) });
    return failure(problem("RUNG_RANGE_NOT_READ", message, {}, remedy));
  }
  const most = text === undefined ? MOST_FILES : MOST_FILES_EVER;
  if (to - from + 1 > most) return failure(tooMany(to - from + 1, most));
  return success(Array.from({ length: to - from + 1 }, (_, i) => all.at(from - 1 + i)));
}

function playersOf(drill: Drill, course: Curriculum, named: readonly string[] | undefined): Result<readonly Player[]> {
  if (named === undefined) return success(drill.players);
  const problems: Problem[] = [];
  const players: Player[] = [];
  for (const name of new Set(named)) {
    const own = drill.players.find(({ instrument }) => instrument.name === name);
    const instrument = instrumentNamed(name, course.instruments);
    if (own) players.push(own);
    else if (instrument === undefined) problems.push(unknownInstrument(name, course.instruments, ""));
    else {
      const octave = fittingOctave(drill, instrument);
      if (octave.ok) players.push({ instrument, octave: octave.value });
      else problems.push(...octave.problems);
    }
  }
  return problems.length > 0 ? { ok: false, problems } : success(players);
}

function tooMany(count: number, most: number, file?: string): Problem {
  const files = { most: String(most), found: String(count) };
  const message = sayProblem("cli-problem.render-too-many-files", files);
  const remedy = sayProblem("cli-problem.render-too-many-files-remedy");
  return problem("RENDER_TOO_MANY_FILES", message, file === undefined ? {} : { file }, remedy);
}

/** The scores of a drill to render, each with the path of its files, as scores of this course and edition. Problem: TOO_MANY_SOUND_FILES. */
export function renderJobs(
  { course, names }: RenderPlan,
  { drill, mixes, rungs }: PlannedDrill,
  of: { readonly curriculum: string; readonly edition?: string } = { curriculum: course.name, edition: course.edition },
): Result<SoundJobs> {
  const jobs = soundJobs(drill, { ...of, mixes, rungs });
  if (!jobs.ok) return jobs;
  const { fileAt: plainAt, at } = jobs.value;
  const fileAt = (index: number): string => {
    const file = plainAt(index);
    return names.place(file.slice(file.indexOf("/") + 1), { drill: drill.name, rung: jobs.value.rungAt(index) });
  };
  return { ...jobs, value: { ...jobs.value, fileAt, at: (index) => ({ ...at(index), file: fileAt(index) }) } };
}
