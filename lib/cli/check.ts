import { problemsIn } from "../index.js";
import { checkAgainst } from "./checkAgainst.js";
import { printReport, summary } from "./checkReport.js";
import { checkRewrite } from "./checkRewrite.js";
import { openCourse } from "./course.js";
import { DONE, MISUSE, type Outcome, PROBLEMS, printJson, type Setting } from "./outcome.js";
import type { StoreOptions } from "./storePlace.js";

export interface CheckOptions extends StoreOptions {
  /** The file of an old edition, or `true` for the editions kept in the store. */
  readonly against?: string | true;
  /** Converts the files to the present spelling, in place. */
  readonly rewrite?: true;
}

/** `leeway check FILE...`: every problem and piece of advice in each course; with `--rewrite` the courses are converted instead. */
export function check(
  setting: Setting,
  files: readonly string[],
  { against, rewrite, ...options }: CheckOptions = {},
): Promise<Outcome> | Outcome {
  if (rewrite !== undefined && against !== undefined) {
    setting.machine.tell("leeway: --rewrite and --against do not go together\n");
    return MISUSE;
  }
  if (rewrite !== undefined) return checkRewrite(setting, files);
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
