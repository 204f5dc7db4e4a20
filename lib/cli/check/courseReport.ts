import type { Problem } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { type Drill, rungs } from "../../drill/index.js";
import type { Setting } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { problemText } from "../output/problemText.js";
import { SLIPS_REMEDY, slipsShown, toldText } from "../output/slipsShown.js";

/** The summary of a course, for JSON. */
export function summary(course: Curriculum): object {
  const drills = course.drills.map((drill) => ({ drill: drill.name, rungs: rungs(drill).count, needs: drill.needs }));
  return { curriculum: course.name, edition: course.edition, drills };
}

/** The problems and the summary of a course, as text. */
export function printReport(
  { terminal, sources }: Setting,
  file: string,
  { course, problems }: { readonly course: Curriculum | undefined; readonly problems: readonly Problem[] },
): void {
  for (const each of problems) terminal.print(problemText(each, { sources, colour: terminal.colours.print }));
  const hidden = course?.drills.flatMap(hiddenSlips) ?? [];
  if (hidden.length > 0) terminal.print(`${hidden.join("")}  ${SLIPS_REMEDY}\n`);
  const errors = problems.filter((each) => each.severity === "error").length;
  const advice = problems.length - errors;
  const counts = [counted(errors, "problem"), advice === 0 ? "" : `${counted(advice, "piece")} of advice`]
    .filter((part) => part !== "")
    .join(", ");
  const content =
    course === undefined
      ? ""
      : ` (${plain(course.name)} ${plain(course.edition)}, ${counted(course.drills.length, "drill")})`;
  terminal.print(`${plain(file)}: ${counts}${content}\n`);
}

/** Slips of a beat or less that takes without pitch cannot show, a line for each drill that has some. */
function hiddenSlips(drill: Drill): string[] {
  const rows = slipsShown(drill).flatMap(({ rungs, slips }) => {
    const sizes = slips.filter(({ beats, logOdds }) => beats <= 1 && toldText(logOdds) === "not told");
    return sizes.length === 0 ? [] : [`${rungs} (${sizes.map(({ beats }) => beats).join(" and ")} beat)`];
  });
  return rows.length === 0
    ? []
    : [
        `${plain(drill.name)}: takes without pitch do not tell a slip from a note left out with ${plain(rows.join("; "))}\n`,
      ];
}

function counted(count: number, noun: string): string {
  return `${count === 0 ? "no" : count} ${noun}${count === 1 ? "" : "s"}`;
}
