import { type Problem, type Result, success } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { rehearseCourses } from "../../node/index.js";
import { CHECKED, frameOf, rehearsalAdvice, resultsOf } from "../../rehearsal/index.js";
import type { Setting } from "../outcome.js";
import { cacheFolder } from "./cacheFolder.js";
import { progressBar } from "./progressBar.js";

/** What a small fixed rehearsal advises the author of a course of; problems are those of rehearsing. */
export async function rehearsedAdvice(
  { terminal }: Setting,
  course: Curriculum,
  { file, keep = cacheFolder() }: { readonly file: string; readonly keep?: string },
): Promise<Result<readonly Problem[]>> {
  const { students, options } = CHECKED;
  const bar = progressBar(terminal);
  const range = { from: 0, count: students };
  const done = await rehearseCourses([{ course, options }], { ...range, keep, onProgress: bar.show });
  bar.clear();
  if (!done.ok) return done;
  const { rehearsals, part } = done.value;
  const results = resultsOf(part.courses[0]!, frameOf(rehearsals[0]!.course), { weeks: options.weeks! });
  return success(rehearsalAdvice(course, results).map((each) => ({ ...each, where: { file, ...each.where } })));
}
