import type { Problem } from "../base/index.js";
import type { StoreFault } from "./codes.js";

/** The error with which a method of a store rejects. */
export interface StoreProblem extends Error {
  readonly problem: Problem<StoreFault>;
}

/** An error to throw for a problem. `cause` is the error of the database. */
export function storeFailure(problem: Problem<StoreFault>, cause?: unknown): StoreProblem {
  return Object.assign(new Error(`${problem.code}: ${problem.message}`, { cause }), { problem });
}

/**
 * Whether an error is a fault of a store, such as a full disk. Any other error is a defect.
 *
 * @example
 * store.open({ student: "tern", curriculum: course.name }).catch((error) => (isStoreProblem(error) ? error.problem.code : "defect"));
 */
export function isStoreProblem(error: unknown): error is StoreProblem {
  return error instanceof Error && "problem" in error;
}
