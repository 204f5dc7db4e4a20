import { join } from "node:path";
import { type Problem, type Result, success } from "../../base/index.js";
import { type BatchProgress, renderBatch } from "../../node/index.js";
import type { SoundJobs } from "../../render/sound/index.js";
import type { PublishedFile } from "../../schema/index.js";
import type { Words } from "../../words/index.js";
import { fileBeside } from "../input/courseFile.js";
import { makersOf } from "../render/makersOf.js";
import { renderJobs } from "../render/plan.js";
import { type PublishFolder, SOUND_FOLDER, SOUND_RECORD, soundFile } from "./folder.js";
import type { PublishPlan } from "./plan.js";

/** The scores of all drills as one list, so that no core waits for the last of a drill. Their files do not tell the edition: a new one sounds as before. */
function soundJobsOf(plan: PublishPlan): Result<SoundJobs> {
  const all: SoundJobs[] = [];
  for (const planned of plan.drills) {
    const jobs = renderJobs(plan, planned, { curriculum: plan.course.name });
    if (!jobs.ok) return jobs;
    all.push(jobs.value);
  }
  const places = all.flatMap((jobs) => Array.from({ length: jobs.count }, (_, own) => ({ jobs, own })));
  return success({
    count: places.length,
    fileAt: (index) => places[index]!.jobs.fileAt(places[index]!.own),
    rungAt: (index) => places[index]!.jobs.rungAt(places[index]!.own),
    everyMixAt: (index) => places[index]!.jobs.everyMixAt(places[index]!.own),
    at: (index) => places[index]!.jobs.at(places[index]!.own),
  });
}

/** What sounds, in each format, on all cores; kept where it was made of the same. */
export async function publishSound(
  folder: PublishFolder,
  plan: PublishPlan,
  {
    words,
    signal,
    onProgress,
  }: {
    readonly words: Words;
    readonly signal: AbortSignal;
    readonly onProgress: (progress: Pick<BatchProgress, "done" | "total" | "kept">) => void;
  },
): Promise<Result<readonly PublishedFile[]>> {
  const jobs = soundJobsOf(plan);
  if (!jobs.ok) return jobs;
  const files: PublishedFile[] = [];
  const advice: Problem[] = [];
  const { bank, loudness } = plan.options;
  const { count } = jobs.value;
  let kept = 0;
  for (const [i, as] of plan.formats.entries()) {
    const made = await renderBatch(jobs.value, {
      folder: join(folder.path, SOUND_FOLDER),
      record: SOUND_RECORD,
      as,
      bank,
      recordings: (file) => fileBeside(plan.file, file),
      ...(loudness === undefined ? {} : { loudness }),
      makers: makersOf(plan.course),
      words,
      signal,
      onProgress: (progress) =>
        onProgress({
          done: i * count + progress.done,
          total: plan.formats.length * count,
          kept: kept + progress.kept,
        }),
    });
    if (!made.ok) return made;
    kept += made.value.kept;
    advice.push(...made.advice);
    files.push(...made.value.files.map(soundFile));
  }
  folder.count.kept += kept;
  folder.count.made += files.length - kept;
  return success(files, [...new Map(advice.map((each) => [each.message, each])).values()]);
}
