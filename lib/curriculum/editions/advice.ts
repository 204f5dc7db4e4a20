import type { Problem } from "../../base/index.js";
import { problem } from "../codes.js";
import type { Curriculum } from "../model.js";
import { compareEditions, type DrillChange } from "./compare.js";
import { compareEditionNumbers } from "./number.js";

/** Most drills named in a message; our choice. */
const NAMED = 3;

/**
 * Advice for an author before a new edition of a course is published: a number that does not fit the change (EDITION_NOT_RAISED,
 * EDITION_LOWERED), drills that lose credit (CREDIT_LOST), drills that become one (DRILLS_JOINED). One error, EDITIONS_OF_TWO_COURSES,
 * when the two are not editions of one course: no student goes over from one course to another.
 *
 * @example
 * editionProblems(course, { ...course, name: "pier" }).map(({ code }) => code) // ["EDITIONS_OF_TWO_COURSES"]
 */
export function editionProblems(old: Curriculum, now: Curriculum): readonly Problem[] {
  if (old.name !== now.name) {
    const message = `editions of one course are compared; found ${old.name} before and ${now.name} now`;
    const remedy = `keep "curriculum: ${old.name}": students' records are kept under it`;
    return [problem("EDITIONS_OF_TWO_COURSES", message, { pointer: "/curriculum" }, remedy)];
  }
  const { drills, isChanged } = compareEditions(old, now);
  const problems: Problem[] = [];
  const order = compareEditionNumbers(now.edition, old.edition);
  const where = { pointer: "/edition" };
  if (order < 0) {
    const message = `edition ${now.edition} comes before ${old.edition}, the edition it is to follow`;
    problems.push(problem("EDITION_LOWERED", message, where, "raise the number, unless this is meant to go back"));
  } else if (order === 0 && isChanged) {
    const message = `the course was changed and is still edition ${now.edition}`;
    problems.push(problem("EDITION_NOT_RAISED", message, where, "raise the number with each change that is published"));
  }
  const losing = drills.filter(({ rungs, kept }) => kept < rungs);
  if (losing.length > 0) {
    const remedy = "takes stay in the journals, and count again in an edition that has the rungs";
    problems.push(problem("CREDIT_LOST", `credit is lost in ${lossText(losing)}`, { pointer: "/drills" }, remedy));
  }
  for (const name of new Set(drills.map((change) => change.now))) {
    const joined = drills.filter((change) => change.now === name).map(({ drill }) => drill);
    if (name === undefined || joined.length < 2) continue;
    const message = `${joined.join(" and ")} both go on as ${name}; who has begun several keeps only the first`;
    problems.push(problem("DRILLS_JOINED", message, { pointer: "/drills" }, "let one drill state one of these names"));
  }
  return problems;
}

function lossText(losing: readonly DrillChange[]): string {
  const named = losing
    .slice(0, NAMED)
    .map(({ drill, rungs, kept }) => `${drill} (${rungs - kept} of ${rungs} ${rungs === 1 ? "rung" : "rungs"})`);
  const more = losing.length > NAMED ? [`${losing.length - NAMED} more drills`] : [];
  return [...named, ...more].join(", ");
}
