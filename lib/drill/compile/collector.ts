import { type Problem, placedUnder, problemsIn, type Result } from "../../base/index.js";
import { drillProblem } from "../codes.js";

/** Gathers the problems of a document while it is read, so that the first does not hide the others. */
export interface Collector {
  readonly problems: readonly Problem[];
  /** Notes a problem of this folder's catalogue at a pointer. */
  add(code: Parameters<typeof drillProblem>[0], message: string, pointer: string, remedy?: string): void;
  /** Notes problems found elsewhere, below a pointer. */
  addAll(problems: readonly Problem[], pointer: string): void;
  /** The value of a result, its problems and advice noted below a pointer; `undefined` when it failed. */
  keep<T>(result: Result<T>, pointer: string): T | undefined;
}

export function collector(): Collector {
  const problems: Problem[] = [];
  const addAll = (more: readonly Problem[], pointer: string): void => {
    for (const problem of more) problems.push(placedUnder(problem, pointer));
  };
  return {
    problems,
    addAll,
    add: (code, message, pointer, remedy) => problems.push(drillProblem(code, message, { pointer }, remedy)),
    keep(result, pointer) {
      addAll(problemsIn(result), pointer);
      return result.ok ? result.value : undefined;
    },
  };
}
