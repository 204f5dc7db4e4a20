import type { Problem } from "../base/index.js";

/** An error that says what kept a store from doing what it was asked. */
export interface StoreFailure extends Error {
  readonly problem: Problem;
}

/** The problem as something to throw, with the error of the database behind it. */
export function storeFailure(problem: Problem, cause?: unknown): StoreFailure {
  return Object.assign(new Error(`${problem.code}: ${problem.message}`, { cause }), { problem });
}

/** The problem a rejected call of a store carries; `undefined` for any other error, which is a defect. */
export function failureProblem(error: unknown): Problem | undefined {
  return error instanceof Error && "problem" in error ? (error.problem as Problem) : undefined;
}
