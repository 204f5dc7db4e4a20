import { appendFile, readFile } from "node:fs/promises";
import { join } from "node:path";
import { type Result, success } from "../../base/index.js";
import { type FilmFormat, readRecord, runConcurrently, sha256 } from "../../node/index.js";
import type { FilmSize } from "../../render/film/index.js";
import type { Setting } from "../outcome.js";
import { FILMS_AT_ONCE, type FilmJob, filmJobs } from "./films.js";
import { type ManifestFile, writeRendered } from "./manifest.js";
import { FILMS, type RenderOptions, type RenderPlan } from "./plan.js";
import { progressLine } from "./sound.js";

/** Name of the record of films in the output folder: one line of JSON for each file, so that an interrupted run goes on where it was. */
const RECORD = "film-files.jsonl";

/** A film, or its captions, as the record has it. */
interface RecordedFilm extends ManifestFile {
  readonly from: string;
}

/** The films of a plan, and their captions beside them; what an earlier run made of the same is kept. */
export async function filmFiles(
  setting: Setting,
  plan: RenderPlan,
  options: RenderOptions & { readonly size?: FilmSize },
): Promise<Result<readonly ManifestFile[]>> {
  const formats: readonly FilmFormat[] = FILMS.filter((format) => options.as.includes(format));
  const jobs = await filmJobs(plan, { ...options, formats }, setting.words);
  if (!jobs.ok) return jobs;
  const { out } = options;
  const earlier = [...(await readRecord(join(out, RECORD))).values()] as unknown as readonly RecordedFilm[];
  const onProgress = progressLine(setting, formats.join(", "));
  const count = { done: 0, total: jobs.value.length, kept: 0 };
  const task = async (index: number): Promise<Result<readonly ManifestFile[]>> => {
    const files = await filmFile(jobs.value[index]!, { out, earlier, kept: () => void count.kept++ });
    count.done += 1;
    onProgress(count);
    return files;
  };
  const made = await runConcurrently({ count: count.total, atOnce: FILMS_AT_ONCE, task });
  if (setting.terminal.colours.tell) setting.terminal.tell("\r\u001b[K");
  return made.ok ? success(made.value.flat(), made.advice) : made;
}

async function filmFile(
  { file, of, ready }: FilmJob,
  {
    out,
    earlier,
    kept,
  }: { readonly out: string; readonly earlier: readonly RecordedFilm[]; readonly kept: () => void },
): Promise<Result<readonly ManifestFile[]>> {
  const film = await ready();
  if (!film.ok) return film;
  const { from, make } = film.value;
  const known = earlier.filter((each) => each.from === from && each.file.startsWith(`${file}.`));
  // Captions are recorded last.
  const isWhole = known.some(({ format }) => format === "vtt");
  if (isWhole && (await Promise.all(known.map((each) => isAsRecorded(out, each)))).every((each) => each)) {
    kept();
    return success(
      known.map(({ from: _, ...entry }) => entry),
      film.advice,
    );
  }
  const made = await make();
  if (!made.ok) return made;
  const entries: ManifestFile[] = [];
  for (const { format, bytes } of made.value) {
    const written = await writeRendered(out, bytes, { ...of, file: `${file}.${format}`, format });
    if (!written.ok) return written;
    entries.push(written.value);
  }
  await appendFile(join(out, RECORD), entries.map((each) => `${JSON.stringify({ ...each, from })}\n`).join(""));
  return success(entries, [...film.advice, ...made.advice]);
}

async function isAsRecorded(out: string, { file, sha256: sum }: ManifestFile): Promise<boolean> {
  const bytes = await readFile(join(out, ...file.split("/"))).catch(() => undefined);
  return bytes !== undefined && sha256(bytes) === sum;
}
