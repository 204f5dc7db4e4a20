import { type Problem, placedUnder, problemsIn, type Result } from "../base/index.js";
import { pointerTo } from "../schema/index.js";
import { MOST_KEPT } from "./limits.js";

/** Gathers problems up to a number beyond which nobody needs more; errors do not give way to advice. */
export interface Keeper {
  readonly kept: readonly Problem[];
  keep(problems: readonly Problem[]): void;
}

export function keeper(): Keeper {
  const kept: Problem[] = [];
  const counts = { error: 0, advice: 0 };
  return {
    kept,
    keep(problems) {
      for (const problem of problems) {
        counts[problem.severity] += 1;
        if (counts[problem.severity] <= MOST_KEPT) kept.push(problem);
      }
    },
  };
}

/** The problems or advice of a piece of the course, with pointers from the course's root. */
export function placedAt(result: Result<unknown>, path: readonly string[]): readonly Problem[] {
  return problemsIn(result).map((each) => placedUnder(each, pointerTo(path)));
}
