import type { Result } from "../../index.js";
import { type SoundJobs, soundJobs } from "../../render/sound/index.js";
import type { PlannedDrill, RenderPlan } from "./plan.js";

/** The scores of a drill that are rendered, each with the name of its files in the drill's own folder. Problem: TOO_MANY_SOUND_FILES. */
export function renderJobs({ course, names }: RenderPlan, { drill, mixes, rungs }: PlannedDrill): Result<SoundJobs> {
  const jobs = soundJobs(drill, { curriculum: course.name, edition: course.edition, mixes, rungs });
  if (!jobs.ok) return jobs;
  const inFolder = (file: string): string => names.drill(drill.name) + file.slice(file.indexOf("/"));
  const { count, fileAt, at } = jobs.value;
  return {
    ...jobs,
    value: {
      count,
      fileAt: (index) => inFolder(fileAt(index)),
      at: (index) => {
        const job = at(index);
        return { ...job, file: inFolder(job.file) };
      },
    },
  };
}
