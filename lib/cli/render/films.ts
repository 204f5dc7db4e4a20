import { availableParallelism } from "node:os";
import { failureIn, type Problem, type Result, success } from "../../base/index.js";
import type { Rung } from "../../drill/index.js";
import { encodeFilm, type FilmFormat, filmsHere, openSoundBank, readyRecordings, sha256 } from "../../node/index.js";
import {
  captionsText,
  type FilmDrawing,
  type FilmSize,
  FRAME_RATE,
  filmChapters,
  filmDrawing,
  framesOver,
} from "../../render/film/index.js";
import { labelOf, renderSound, type Sound, type SoundBank, USUAL_PEAK } from "../../render/sound/index.js";
import type { Score } from "../../schema/index.js";
import type { Words } from "../../words/index.js";
import { fileBeside } from "../input/courseFile.js";
import { makersOf } from "./makersOf.js";
import { fileSum } from "./manifest.js";
import { CONCERT_PITCH } from "./names.js";
import { type Player, type RenderOptions, type RenderPlan, renderJobs } from "./plan.js";
import { fontsWith, openEngraver } from "./sheets.js";

/** Samples a second: all that Opus knows, and usual for films. */
const RATE = 48000;
const WIDE: FilmSize = { width: 1920, height: 1080 };
const UPRIGHT: FilmSize = { width: 1080, height: 1920 };
/** Films that are made at the same time; our choice, as measured on two cores: one paints while another encodes. */
export const FILMS_AT_ONCE: number = Math.min(2, availableParallelism());
/** Raised whenever the same drawing and sound give another film than before, so that older files are made anew. */
const FILM_EDITION = 1;

export interface FilmsAsked extends Pick<RenderOptions, "bank" | "loudness" | "upright" | "font"> {
  readonly formats: readonly FilmFormat[];
  /** In place of those of a screen. */
  readonly size?: FilmSize;
}

/** A film of a plan: what it is of, and its making. */
export interface FilmJob {
  /** The path of its files, without their endings. */
  readonly file: string;
  readonly of: { readonly drill: string; readonly rung: string; readonly mix: string; readonly player?: string };
  /** Draws and words it; the rest is the work. */
  readonly ready: () => Promise<Result<ReadyFilm>>;
}

export interface ReadyFilm {
  /** SHA-256 of all that it is made from: the same, the same bytes. */
  readonly from: string;
  /** Its bytes in each format, and those of its captions. */
  readonly make: (signal?: AbortSignal) => Promise<Result<readonly FilmBytes[]>>;
}

export interface FilmBytes {
  readonly format: FilmFormat | "vtt";
  readonly bytes: Uint8Array;
}

/** The films of a plan, for each player of each drill one for every mix of every rung. Problems: of a machine that makes none, and of banks and engravers. */
export async function filmJobs(plan: RenderPlan, asked: FilmsAsked, words: Words): Promise<Result<readonly FilmJob[]>> {
  for (const as of asked.formats) {
    const here = await filmsHere(as);
    if (!here.ok) return here;
  }
  const stage = await openStage(plan, asked, words);
  if (!stage.ok) return stage;
  const all: FilmJob[] = [];
  for (const planned of plan.drills) {
    const { drill, mixes, rungs } = planned;
    const jobs = renderJobs(plan, planned);
    if (!jobs.ok) return jobs;
    for (let i = 0; i < jobs.value.count; i++) {
      const { file: path, score } = jobs.value.at(i);
      const rung = rungs[Math.floor(i / mixes.length)]!;
      for (const player of planned.players.length === 0 ? [undefined] : planned.players) {
        const name = player?.instrument.name;
        const called = name === undefined ? CONCERT_PITCH : plan.names.player(name);
        const place = { drill: drill.name, rung: jobs.value.rungAt(i), player: name };
        const file = plan.names.place(`${path.slice(path.lastIndexOf("/") + 1)}_${called}`, place);
        const { rung: settings, mix } = score;
        all.push({
          file,
          of: { drill: drill.name, rung: settings, mix, ...(name !== undefined && { player: name }) },
          ready: () => readyFilm(file, { rung, score, player }, stage.value),
        });
      }
    }
  }
  return success(all);
}

/** What all films of a plan have in common. */
interface Stage {
  readonly drawing: (rung: Rung, score: Score, player: Player | undefined) => Promise<Result<FilmDrawing>>;
  /** The sound of a score, made once for all of its players. */
  readonly soundOf: (score: Score) => Promise<Result<Sound>>;
  /** What sounds depend on beside their scores. */
  readonly sounds: readonly unknown[];
  readonly formats: readonly FilmFormat[];
  readonly plan: RenderPlan;
  readonly words: Words;
}

async function openStage(
  plan: RenderPlan,
  { bank: path, loudness, upright, font, formats, size = upright === true ? UPRIGHT : WIDE }: FilmsAsked,
  words: Words,
): Promise<Result<Stage>> {
  const { file, course } = plan;
  const bank = path === undefined ? undefined : await openSoundBank(path);
  if (bank?.ok === false) return bank;
  const engraver = await openEngraver();
  if (!engraver.ok) return engraver;
  const fonts = fontsWith(font);
  if (!fonts.ok) return fonts;
  const options = { engraver: engraver.value, fonts: fonts.value, words, size, course: course.title ?? course.name };
  const pathOf = (name: string): string | undefined => fileBeside(file, name);
  let last: { readonly score: Score; readonly sound: Promise<Result<Sound>> } | undefined;
  return success({
    drawing: (rung, score, player) => filmDrawing(rung, score, { ...options, player }),
    soundOf: (score) => {
      if (last?.score !== score) last = { score, sound: rendered(score, { bank: bank?.value, loudness, pathOf }) };
      return last.sound;
    },
    sounds: [path === undefined ? null : fileSum(path), loudness ?? null],
    formats,
    plan,
    words,
  });
}

async function rendered(
  score: Score,
  {
    bank,
    loudness,
    pathOf,
  }: {
    readonly bank: SoundBank | undefined;
    readonly loudness: number | undefined;
    readonly pathOf: (file: string) => string | undefined;
  },
): Promise<Result<Sound>> {
  const recordings = await readyRecordings(score, { pathOf, rate: RATE });
  if (!recordings.ok) return recordings;
  const given = { ...(bank && { bank }), ...(loudness !== undefined && { loudness }) };
  const sound = renderSound(score, { rate: RATE, recordings: recordings.value, ...given });
  return sound.ok ? success(sound.value, [...recordings.advice, ...sound.advice]) : sound;
}

async function readyFilm(
  file: string,
  { rung, score, player }: { readonly rung: Rung; readonly score: Score; readonly player: Player | undefined },
  { drawing: draw, soundOf, sounds, formats, plan, words }: Stage,
): Promise<Result<ReadyFilm>> {
  const drawn = await draw(rung, score, player);
  if (!drawn.ok) return failureIn(file, drawn.problems);
  const label = labelOf(score, words, makersOf(plan.course));
  const { tolerance: _, edition: __, ...sounding } = score;
  const phrases = [...new Set(score.bars.map(({ phrase }) => phrase))];
  const pictures = phrases.map((number) => sha256(drawn.value.phrase(number)));
  const worded = captionsText(score, { lead: 0, words });
  const from = sha256(JSON.stringify([FILM_EDITION, formats, sounding, label, pictures, worded, sounds]));
  const make = async (signal?: AbortSignal): Promise<Result<readonly FilmBytes[]>> => {
    const sound = await soundOf(score);
    if (!sound.ok) return failureIn(file, sound.problems);
    const lead = sound.value.downbeat / sound.value.rate;
    const chapters = filmChapters(score, { lead, length: framesOver(sound.value) / FRAME_RATE, words });
    const made: FilmBytes[] = [];
    const advice: Problem[] = [...sound.advice];
    for (const as of formats) {
      const parts = { score, drawing: drawn.value, sound: sound.value, label, chapters, peak: USUAL_PEAK };
      const film = await encodeFilm(as, parts, signal);
      if (!film.ok) return failureIn(file, film.problems);
      advice.push(...film.advice);
      made.push({ format: as, bytes: film.value });
    }
    const captions = new TextEncoder().encode(captionsText(score, { lead, words }));
    return success([...made, { format: "vtt", bytes: captions }], advice);
  };
  return success({ from, make }, drawn.advice);
}
