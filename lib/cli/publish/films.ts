import { type Result, success } from "../../base/index.js";
import { type BatchProgress, runConcurrently } from "../../node/index.js";
import type { PublishedFile } from "../../schema/index.js";
import type { Words } from "../../words/index.js";
import { FILMS_AT_ONCE, type FilmsAsked, filmJobs } from "../render/films.js";
import { keepOrMake, type NewFile, type PublishFolder, stopped } from "./folder.js";
import type { PublishPlan } from "./plan.js";

/** The folder of films. */
const FOLDER = "films";

/** Films of each version for each player with their captions, where they were asked for; each is kept where it was made of the same. */
export async function publishFilms(
  folder: PublishFolder,
  plan: PublishPlan,
  {
    words,
    signal,
    onProgress,
    size,
  }: {
    readonly words: Words;
    readonly signal: AbortSignal;
    readonly onProgress: (progress: Pick<BatchProgress, "done" | "total" | "kept">) => void;
    readonly size?: FilmsAsked["size"];
  },
): Promise<Result<readonly PublishedFile[]>> {
  const { films } = plan;
  if (films.length === 0) return success([]);
  const { bank, loudness, font, upright } = plan.options;
  const chosen = {
    ...(bank !== undefined && { bank }),
    ...(loudness !== undefined && { loudness }),
    ...(font !== undefined && { font }),
  };
  const asked = { formats: films, ...chosen, ...(upright && { upright }), ...(size && { size }) };
  // Films do not tell the edition: a new one plays as before.
  const jobs = await filmJobs(plan, asked, words);
  if (!jobs.ok) return jobs;
  const progress = { done: 0, total: jobs.value.length, kept: 0 };
  const task = async (index: number): Promise<Result<readonly PublishedFile[]>> => {
    const { file, of, ready } = jobs.value[index]!;
    if (signal.aborted) return stopped(folder);
    const film = await ready();
    if (!film.ok) return film;
    let isKept = true;
    const files = await keepOrMake(folder, film.value.from, async () => {
      isKept = false;
      const bytes = await film.value.make(signal);
      if (!bytes.ok) return signal.aborted ? stopped(folder) : bytes;
      return success(
        bytes.value.map(
          ({ format, bytes: content }): NewFile => ({
            file: `${FOLDER}/${file}.${format}`,
            kind: "film",
            ...of,
            content,
          }),
        ),
        bytes.advice,
      );
    });
    progress.done += 1;
    if (isKept) progress.kept += 1;
    onProgress(progress);
    return files.ok ? success(files.value, [...film.advice, ...files.advice]) : files;
  };
  const made = await runConcurrently({ count: progress.total, atOnce: FILMS_AT_ONCE, task });
  return made.ok ? success(made.value.flat(), made.advice) : made;
}
