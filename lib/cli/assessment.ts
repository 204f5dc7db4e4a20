import { assess, type Finding, problemsIn, type Score } from "../index.js";
import { findingText } from "./findingText.js";
import { openScore, type ScoreChoice } from "./openScore.js";
import { DONE, type Outcome, PROBLEMS, printJson, refuse, type Setting, tellProblems } from "./outcome.js";
import { takeName } from "./takeName.js";
import { type NamedTake, readTakes, type TakeOptions } from "./takes.js";

export interface AssessmentOptions extends TakeOptions, ScoreChoice {}

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
  for (const argument of takes) {
    for (const named of await readTakes(argument, options, { machine: setting.machine, score, players })) {
      if (!first && !setting.json) setting.machine.print("\n");
      first = false;
      if (!answer(setting, named, score)) outcome = PROBLEMS;
    }
  }
  return outcome;
}

/** Prints the finding, or the problems in its place; whether there was a finding. */
function answer(setting: Setting, { name, take }: NamedTake, score: Score): boolean {
  if (!take.ok) {
    if (setting.json) printJson(setting, { take: name, problems: take.problems });
    else tellProblems(setting, take.problems);
    return false;
  }
  const finding: Finding = { ...assess(score, take.value), take: take.value.id ?? takeName(name, take.value) };
  if (setting.json) printJson(setting, finding);
  else {
    tellProblems(setting, problemsIn(take));
    setting.machine.print(findingText(finding, score, setting.machine.colours.print));
  }
  return true;
}
