import { join } from "node:path";
import { assess, driftTrends, type Finding, type Problem, problemsIn, type Score, type Take } from "../index.js";
import { takeChart } from "../render/index.js";
import { makeFolder, writeWhole } from "../render/sound/node/index.js";
import { findingText } from "./findingText.js";
import { openScore, type ScoreChoice } from "./openScore.js";
import { DONE, type Outcome, PROBLEMS, printJson, refuse, type Setting, tellProblems } from "./outcome.js";
import { safe } from "./renderNotes.js";
import { takeName } from "./takeName.js";
import { type NamedTake, readTakes, type TakeOptions } from "./takes.js";

export interface AssessmentOptions extends TakeOptions, ScoreChoice {
  /** A folder for a picture of each take. */
  readonly pictures?: string;
}

/** `leeway assess FILE DRILL RUNG TAKE...`: what each take showed, in the order given. */
export async function assessment(
  setting: Setting,
  [file, drill, rung, ...takes]: readonly [string, string, string, ...string[]],
  options: AssessmentOptions,
): Promise<Outcome> {
  const opened = openScore(setting, [file, drill, rung], options);
  if (!opened.ok) return refuse(setting, opened.problems);
  const { score, players } = opened.value;
  let outcome: Outcome = DONE;
  let first = true;
  const findings: Finding[] = [];
  for (const argument of takes) {
    for (const named of await readTakes(argument, options, { machine: setting.machine, score, players })) {
      if (!first && !setting.json) setting.machine.print("\n");
      first = false;
      const finding = answer(setting, named, score);
      const problems =
        finding === undefined || options.pictures === undefined || !named.take.ok
          ? []
          : await writePicture(options.pictures, score, { take: named.take.value, finding });
      tellProblems(setting, problems);
      if (finding !== undefined) findings.push(finding);
      if (finding === undefined || problems.length > 0) outcome = PROBLEMS;
    }
  }
  if (!setting.json) for (const { sentence } of driftTrends(findings)) setting.machine.print(`\n${sentence}\n`);
  return outcome;
}

/** Prints the finding, or the problems in its place. */
function answer(setting: Setting, { name, take }: NamedTake, score: Score): Finding | undefined {
  if (!take.ok) {
    if (setting.json) printJson(setting, { take: name, problems: take.problems });
    else tellProblems(setting, take.problems);
    return undefined;
  }
  const finding: Finding = { ...assess(score, take.value), take: take.value.id ?? takeName(name, take.value) };
  if (setting.json) printJson(setting, finding);
  else {
    tellProblems(setting, problemsIn(take));
    setting.machine.print(findingText(finding, score, setting.machine.colours.print));
  }
  return finding;
}

/** The take as a picture, in a file of its name. */
async function writePicture(
  folder: string,
  score: Score,
  { take, finding }: { readonly take: Take; readonly finding: Finding },
): Promise<readonly Problem[]> {
  const made = await makeFolder(folder);
  if (!made.ok) return made.problems;
  const bytes = new TextEncoder().encode(takeChart(score, take, finding));
  const written = await writeWhole(join(folder, `${safe(finding.take ?? "take")}.svg`), bytes);
  return written.ok ? [] : written.problems;
}
