import { failureIn, type Problem, type Result, success } from "../../base/index.js";
import type { Rung } from "../../drill/index.js";
import { encodeFilm, filmsHere, openSoundBank, readyRecordings } from "../../node/index.js";
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
import { fileBeside } from "../input/courseFile.js";
import type { Setting } from "../outcome.js";
import { makersOf } from "./makersOf.js";
import { type ManifestFile, writeRendered } from "./manifest.js";
import { CONCERT_PITCH } from "./names.js";
import { FILMS, type Player, type RenderOptions, type RenderPlan, renderJobs } from "./plan.js";
import { openEngraver, sheetFonts } from "./sheets.js";
import { progressLine } from "./sound.js";

/** Samples a second: all that Opus knows, and usual for films. */
const RATE = 48000;
const WIDE: FilmSize = { width: 1920, height: 1080 };
const UPRIGHT: FilmSize = { width: 1080, height: 1920 };

/** The films of a plan, for each player of each drill one for every mix of every rung, and their captions beside them. */
export async function filmFiles(
  setting: Setting,
  plan: RenderPlan,
  options: RenderOptions & { readonly size?: FilmSize },
): Promise<Result<readonly ManifestFile[]>> {
  const formats = FILMS.filter((format) => options.as.includes(format));
  for (const as of formats) {
    const here = await filmsHere(as);
    if (!here.ok) return here;
  }
  const stage = await openStage(setting, plan, options);
  if (!stage.ok) return stage;
  const files: ManifestFile[] = [];
  const advice = new Map<string, Problem>();
  for (const planned of plan.drills) {
    const { drill, mixes, rungs } = planned;
    const jobs = renderJobs(plan, planned);
    if (!jobs.ok) return jobs;
    const players = planned.players.length === 0 ? [undefined] : planned.players;
    const onProgress = progressLine(setting, `${drill.name} ${formats.join(", ")}`);
    const total = jobs.value.count * players.length;
    let done = 0;
    for (let i = 0; i < jobs.value.count; i++) {
      const { file: path, score } = jobs.value.at(i);
      const sound = await soundOf(score, stage.value);
      if (!sound.ok) return failureIn(path, sound.problems);
      for (const player of players) {
        const called = player === undefined ? CONCERT_PITCH : plan.names.player(player.instrument.name);
        const name = `${path.slice(path.lastIndexOf("/") + 1)}_${called}`;
        const of = { drill: drill.name, rung: jobs.value.rungAt(i), player: player?.instrument.name };
        const about = {
          drill: drill.name,
          rung: score.rung,
          mix: score.mix,
          ...(player && { player: player.instrument.name }),
        };
        const drawing = await stage.value.drawing(rungs[Math.floor(i / mixes.length)]!, score, player);
        if (!drawing.ok) return failureIn(name, drawing.problems);
        const made = await filmOf(score, { setting, plan, sound: sound.value, drawing: drawing.value, formats });
        if (!made.ok) return failureIn(name, made.problems);
        for (const each of [...sound.advice, ...drawing.advice, ...made.advice]) advice.set(each.message, each);
        for (const { format, bytes } of made.value) {
          const file = plan.names.place(`${name}.${format}`, of);
          const written = await writeRendered(options.out, bytes, { ...about, file, format });
          if (!written.ok) return written;
          files.push(written.value);
        }
        done += 1;
        onProgress({ done, total, kept: 0 });
      }
    }
    if (setting.terminal.colours.tell) setting.terminal.tell("\r\u001b[K");
  }
  return success(files, [...advice.values()]);
}

/** What all films of a plan have in common. */
interface Stage {
  readonly bank: SoundBank | undefined;
  readonly loudness: number | undefined;
  readonly pathOf: (file: string) => string | undefined;
  readonly drawing: (rung: Rung, score: Score, player: Player | undefined) => Promise<Result<FilmDrawing>>;
}

async function openStage(
  { words }: Setting,
  { file, course }: RenderPlan,
  { bank: path, loudness, upright, size = upright === true ? UPRIGHT : WIDE }: RenderOptions & { size?: FilmSize },
): Promise<Result<Stage>> {
  const bank = path === undefined ? undefined : await openSoundBank(path);
  if (bank?.ok === false) return bank;
  const engraver = await openEngraver();
  if (!engraver.ok) return engraver;
  const options = { engraver: engraver.value, fonts: sheetFonts(), words, size, course: course.title ?? course.name };
  return success({
    bank: bank?.value,
    loudness,
    pathOf: (name) => fileBeside(file, name),
    drawing: (rung, score, player) => filmDrawing(rung, score, { ...options, player }),
  });
}

async function soundOf(score: Score, { bank, loudness, pathOf }: Stage): Promise<Result<Sound>> {
  const recordings = await readyRecordings(score, { pathOf, rate: RATE });
  if (!recordings.ok) return recordings;
  const given = { ...(bank && { bank }), ...(loudness !== undefined && { loudness }) };
  return renderSound(score, { rate: RATE, recordings: recordings.value, ...given });
}

/** The bytes of a film in each format, and of its captions. */
async function filmOf(
  score: Score,
  {
    setting: { words },
    plan: { course },
    sound,
    drawing,
    formats,
  }: {
    readonly setting: Setting;
    readonly plan: RenderPlan;
    readonly sound: Sound;
    readonly drawing: FilmDrawing;
    readonly formats: readonly (typeof FILMS)[number][];
  },
): Promise<Result<readonly { readonly format: (typeof FILMS)[number] | "vtt"; readonly bytes: Uint8Array }[]>> {
  const lead = sound.downbeat / sound.rate;
  const chapters = filmChapters(score, { lead, length: framesOver(sound) / FRAME_RATE, words });
  const label = labelOf(score, words, makersOf(course));
  const captions = new TextEncoder().encode(captionsText(score, { lead, words }));
  const made: { readonly format: (typeof FILMS)[number] | "vtt"; readonly bytes: Uint8Array }[] = [];
  const advice: Problem[] = [];
  for (const as of formats) {
    const film = await encodeFilm(as, { score, drawing, sound, label, chapters, peak: USUAL_PEAK });
    if (!film.ok) return film;
    advice.push(...film.advice);
    made.push({ format: as, bytes: film.value });
  }
  return success([...made, { format: "vtt", bytes: captions }], advice);
}
