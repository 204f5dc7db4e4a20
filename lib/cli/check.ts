import { type Curriculum, type Problem, problemsIn, rungs } from "../index.js";
import { openCourse } from "./course.js";
import { DONE, type Outcome, PROBLEMS, printJson, type Setting } from "./outcome.js";
import { plain } from "./plain.js";
import { problemText } from "./problemText.js";

/** `leeway check FILE...`: every problem and piece of advice in each course. */
export function check(setting: Setting, files: readonly string[]): Outcome {
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

function summary(course: Curriculum): object {
  const drills = course.drills.map((drill) => ({ drill: drill.name, rungs: rungs(drill).count, needs: drill.needs }));
  return { curriculum: course.name, edition: course.edition, drills };
}

function printReport(
  { machine, sources }: Setting,
  file: string,
  { course, problems }: { readonly course: Curriculum | undefined; readonly problems: readonly Problem[] },
): void {
  for (const each of problems) machine.print(problemText(each, { sources, colour: machine.colours.print }));
  const errors = problems.filter((each) => each.severity === "error").length;
  const advice = problems.length - errors;
  const counts = [counted(errors, "problem"), advice === 0 ? "" : counted(advice, "remark")]
    .filter((part) => part !== "")
    .join(", ");
  const content =
    course === undefined
      ? ""
      : ` (${plain(course.name)} ${plain(course.edition)}, ${counted(course.drills.length, "drill")})`;
  machine.print(`${plain(file)}: ${counts}${content}\n`);
}

function counted(count: number, noun: string): string {
  return `${count === 0 ? "no" : count} ${noun}${count === 1 ? "" : "s"}`;
}
