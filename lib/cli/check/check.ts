import { type Problem, problemsIn, type Result } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import type { Act, AddCommand } from "../command.js";
import { fileBeside, openCourse } from "../input/courseFile.js";
import { DONE, misuse, type Outcome, PROBLEMS, printJson, refuse, type Setting } from "../outcome.js";
import { type StoreOptions, storeOption } from "../store/openStore.js";
import { checkAgainst } from "./checkAgainst.js";
import { checkRewrite } from "./checkRewrite.js";
import { printReport, summary } from "./courseReport.js";

export interface CheckOptions extends StoreOptions {
  /** The file of an old edition, or `true` for the editions kept in the store. */
  readonly against?: string | true;
  /** Converts the files to the present spelling, in place. */
  readonly rewrite?: true;
  /** Tries the courses on simulated students. */
  readonly rehearse?: true;
  /** Where what was played is kept. */
  readonly keep?: string;
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
    .option("--rehearse", "and try it on simulated students: advice on walls, and on rungs nobody fails")
    .option("--keep <DIR>", "with --rehearse: where what was played is kept; the user's own cache when left out")
    .action((files: readonly string[], options: CheckOptions) => act((setting) => check(setting, files, options)));
}

/** `leeway check FILE...`: all problems and advice of each course; `--rewrite` converts the courses instead. */
function check(
  setting: Setting,
  files: readonly string[],
  { against, rewrite, rehearse, ...options }: CheckOptions = {},
): Promise<Outcome> | Outcome {
  if (rehearse !== undefined && (against !== undefined || rewrite !== undefined)) {
    const second = against === undefined ? "--rewrite" : "--against";
    return misuse(setting, setting.words.say("cli.misuse.not-together", { first: "--rehearse", second }));
  }
  if (rehearse !== undefined) return checkRehearsed(setting, files, options);
  if (rewrite !== undefined && against !== undefined)
    return misuse(setting, setting.words.say("cli.misuse.not-together", { first: "--rewrite", second: "--against" }));
  if (rewrite !== undefined) return checkRewrite(setting, files);
  if (against !== undefined) return checkAgainst(setting, files, { against, ...options });
  return checkEach(setting, files);
}

/** Each course by itself; its recordings are listened to. */
async function checkEach(setting: Setting, files: readonly string[]): Promise<Outcome> {
  let outcome: Outcome = DONE;
  for (const file of files) {
    const read = openCourse(file, setting.sources);
    const heard = read.ok ? await heardIn(read.value, file) : [];
    if (!read.ok || heard.some(({ severity }) => severity === "error")) outcome = PROBLEMS;
    tellChecked(setting, file, read, [...problemsIn(read), ...heard]);
  }
  return outcome;
}

/** What listening to the recordings of a course finds. What listens is loaded where there are some: few courses have. */
async function heardIn(course: Curriculum, file: string): Promise<readonly Problem[]> {
  const parts = Object.values(course.patterns).flatMap((pattern) => pattern.parts);
  if (parts.every(({ recorded }) => recorded === undefined)) return [];
  const { checkRecordings } = await import("../../node/index.js");
  return checkRecordings(course, { file, pathOf: (name) => fileBeside(file, name) });
}

/** The same with the advice that a rehearsal of each course gives. */
async function checkRehearsed(
  setting: Setting,
  files: readonly string[],
  options: Pick<CheckOptions, "keep">,
): Promise<Outcome> {
  // What rehearses is loaded when it is asked for: few checks do.
  const { rehearsedAdvice } = await import("../rehearse/rehearsedAdvice.js");
  let outcome: Outcome = DONE;
  for (const file of files) {
    const read = openCourse(file, setting.sources);
    const found = read.ok ? await rehearsedAdvice(setting, read.value, { file, ...options }) : undefined;
    if (found?.ok === false) return refuse(setting, found.problems);
    if (!read.ok) outcome = PROBLEMS;
    tellChecked(setting, file, read, [...problemsIn(read), ...(found?.value ?? [])]);
  }
  return outcome;
}

function tellChecked(setting: Setting, file: string, read: Result<Curriculum>, problems: readonly Problem[]): void {
  const course = read.ok ? read.value : undefined;
  if (setting.json)
    printJson(setting, { file, ok: read.ok, ...(course === undefined ? {} : summary(course)), problems });
  else printReport(setting, file, { course, problems });
}
