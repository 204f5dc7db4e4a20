import { problemsIn } from "../../base/index.js";
import type { Act, AddCommand } from "../command.js";
import { openCourse } from "../input/courseFile.js";
import { DONE, misuse, type Outcome, PROBLEMS, printJson, type Setting } from "../outcome.js";
import { type StoreOptions, storeOption } from "../store/openStore.js";
import { checkAgainst } from "./checkAgainst.js";
import { checkRewrite } from "./checkRewrite.js";
import { printReport, summary } from "./courseReport.js";

export interface CheckOptions extends StoreOptions {
  /** The file of an old edition, or `true` for the editions kept in the store. */
  readonly against?: string | true;
  /** Converts the files to the present spelling, in place. */
  readonly rewrite?: true;
}

/** Adds `check` to the program. */
export function checkCommand(command: AddCommand, act: Act): void {
  storeOption(command("check", "every problem and piece of advice in each course"))
    .argument("<FILE...>")
    .option(
      "--against [OLD]",
      "what a new edition does to students; OLD is the old one's file, or what the store keeps",
    )
    .option("--rewrite", "write lines of the former spelling in the present one, in place")
    .action((files: readonly string[], options: CheckOptions) => act((setting) => check(setting, files, options)));
}

/** `leeway check FILE...`: all problems and advice of each course; `--rewrite` converts the courses instead. */
function check(
  setting: Setting,
  files: readonly string[],
  { against, rewrite, ...options }: CheckOptions = {},
): Promise<Outcome> | Outcome {
  if (rewrite !== undefined && against !== undefined)
    return misuse(setting, setting.words.say("cli.misuse.not-together", { first: "--rewrite", second: "--against" }));
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
