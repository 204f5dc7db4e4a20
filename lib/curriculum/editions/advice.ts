import type { Phrase, Problem } from "../../base/index.js";
import { problem } from "../codes.js";
import type { Curriculum } from "../model.js";
import { compareEditions, type DrillChange } from "./compare.js";
import { compareEditionNumbers } from "./number.js";
import { say } from "./say.js";

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
    const message = say("edition-problem.editions-of-two-courses", { before: old.name, now: now.name });
    const remedy = say("edition-problem.editions-of-two-courses-remedy", { before: old.name });
    return [problem("EDITIONS_OF_TWO_COURSES", message, { pointer: "/curriculum" }, remedy)];
  }
  const { drills, isChanged } = compareEditions(old, now);
  const problems: Problem[] = [];
  const order = compareEditionNumbers(now.edition, old.edition);
  const where = { pointer: "/edition" };
  if (order < 0) {
    const message = say("edition-problem.edition-lowered", { now: now.edition, before: old.edition });
    problems.push(problem("EDITION_LOWERED", message, where, say("edition-problem.edition-lowered-remedy")));
  } else if (order === 0 && isChanged) {
    const message = say("edition-problem.edition-not-raised", { edition: now.edition });
    problems.push(problem("EDITION_NOT_RAISED", message, where, say("edition-problem.edition-not-raised-remedy")));
  }
  const losing = drills.filter(({ rungs, kept }) => kept < rungs);
  if (losing.length > 0) {
    const message = say("edition-problem.credit-lost", { losses: lossesOf(losing) });
    const remedy = say("edition-problem.credit-lost-remedy");
    problems.push(problem("CREDIT_LOST", message, { pointer: "/drills" }, remedy));
  }
  for (const name of new Set(drills.map((change) => change.now))) {
    const joined = drills.filter((change) => change.now === name).map(({ drill }) => drill);
    if (name === undefined || joined.length < 2) continue;
    const [first, second] = joined as [string, string];
    const message =
      joined.length === 2
        ? say("edition-problem.drills-joined", { first, second, now: name })
        : say("edition-problem.drills-joined-several", {
            others: joined.slice(0, -1),
            last: joined.at(-1)!,
            now: name,
          });
    const remedy = say("edition-problem.drills-joined-remedy");
    problems.push(problem("DRILLS_JOINED", message, { pointer: "/drills" }, remedy));
  }
  return problems;
}

function lossesOf(losing: readonly DrillChange[]): readonly Phrase[] {
  const named = losing
    .slice(0, NAMED)
    .map(({ drill, rungs, kept }) => say("edition-problem.loss", { drill, lost: rungs - kept, rungs }).message);
  const left = losing.length - NAMED;
  return left > 0 ? [...named, say("edition-problem.more-losses", { drills: left }).message] : named;
}
