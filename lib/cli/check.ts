import { problemsIn } from "../index.js";
import { checkAgainst } from "./checkAgainst.js";
import { printReport, summary } from "./checkReport.js";
import { openCourse } from "./course.js";
import { DONE, type Outcome, PROBLEMS, printJson, type Setting } from "./outcome.js";
import type { StoreOptions } from "./storePlace.js";

export interface CheckOptions extends StoreOptions {
  /** The file of an old edition, or `true` for the editions kept in the store. */
  readonly against?: string | true;
}

/** `leeway check FILE...`: every problem and piece of advice in each course. */
export function check(
  setting: Setting,
  files: readonly string[],
  { against, ...options }: CheckOptions = {},
): Promise<Outcome> | Outcome {
  if (against !== undefined) return checkAgainst(setting, files, { against, ...options });
  let outcome: Outcome = DONE;
  for (const file of files) {
    const read = openCourse(file, setting.sources);
    if (!read.ok) outcome = PROBLEMS;
    const problems = problemsIn(read);
    if (setting.json) printJson(setting, { file, ok: read.ok, ...(read.ok ? summary(read.value) : {}), problems });
    else printReport(setting, file, { course: read.ok ? read.value : undefined, problems });
  }
  return outcome;
}
