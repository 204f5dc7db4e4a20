import type { Problem } from "../base/index.js";

/** An error of a store, with its problem. */
export interface StoreFailure extends Error {
  readonly problem: Problem;
}

/** An error to throw for a problem. `cause` is the error of the database. */
export function storeFailure(problem: Problem, cause?: unknown): StoreFailure {
  return Object.assign(new Error(`${problem.code}: ${problem.message}`, { cause }), { problem });
}

/** The problem of a rejected store call; `undefined` for any other error, which is a defect. */
export function failureProblem(error: unknown): Problem | undefined {
  return error instanceof Error && "problem" in error ? (error.problem as Problem) : undefined;
}
