import { type Problem, problemsOf } from "../base/index.js";
import { schemaCodes } from "./codes.js";
import { isOtherVersion, problemFrom } from "./keywordProblems.js";
import { say } from "./say.js";
import type { Violation } from "./violation.js";

const problem = problemsOf(schemaCodes);

/** Largest number of problems listed for one document: our choice, because nobody reads more at once. */
const MOST = 500;

/** The complaints of a validator as problems: one for each cause, with what is allowed. */
export function problemsFrom(violations: readonly Violation[]): readonly Problem[] {
  // What another version holds cannot be judged by the rules of this one.
  const other = violations.find(isOtherVersion);
  const problems = (other === undefined ? essential(violations) : [other]).map(problemFrom);
  const distinct = [
    ...new Map(problems.map((each) => [`${each.code} ${each.where.pointer} ${each.message}`, each])).values(),
  ];
  if (distinct.length <= MOST) return distinct;
  return [...distinct.slice(0, MOST), problem("MORE_PROBLEMS", say("schema-problem.more-problems"), { pointer: "" })];
}

/** Removes complaints that only repeat another: those of an `if`, and those of each branch when no branch of a choice is valid. */
function essential(violations: readonly Violation[]): readonly Violation[] {
  const collapsed = new Set(
    violations.filter((each) => each.keyword === "anyOf" || each.keyword === "oneOf").map((each) => each.instancePath),
  );
  const outermost = (path: string): string | undefined => {
    for (let end = 0; end !== -1; end = path.indexOf("/", end + 1))
      if (collapsed.has(path.slice(0, end))) return path.slice(0, end);
    return collapsed.has(path) ? path : undefined;
  };
  return violations.filter((each) => {
    if (each.keyword === "if" || each.propertyName !== undefined) return false;
    const cause = outermost(each.instancePath);
    return (
      cause === undefined || (cause === each.instancePath && (each.keyword === "anyOf" || each.keyword === "oneOf"))
    );
  });
}
