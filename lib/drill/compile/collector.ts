import { type Problem, placedUnder, problemsIn, type Result, type Worded } from "../../base/index.js";
import { drillProblem } from "../codes.js";

/** Collects all problems of a document while it is compiled. */
export interface Collector {
  readonly problems: readonly Problem[];
  /** Adds a problem of the drill's catalogue at a pointer. */
  add(code: Parameters<typeof drillProblem>[0], message: Worded, pointer: string, remedy?: Worded): void;
  /** Adds problems of other catalogues, their pointers below this pointer. */
  addAll(problems: readonly Problem[], pointer: string): void;
  /** The value of a result, `undefined` when it failed. Its problems and advice are added, their pointers below this pointer. */
  keep<T>(result: Result<T>, pointer: string): T | undefined;
}

/** An empty collector. */
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
      problems.push(...problemsIn(result, pointer));
      return result.ok ? result.value : undefined;
    },
  };
}
