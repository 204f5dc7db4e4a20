import { type Problem, placedUnder } from "./problem.js";

export interface Success<T> {
  readonly ok: true;
  readonly value: T;
  /** Problems of severity `advice`; empty when there are none. */
  readonly advice: readonly Problem[];
}
export interface Failure {
  readonly ok: false;
  /** All problems found, at least one of them an error. */
  readonly problems: readonly Problem[];
}
/** A value, or all problems that prevent it. */
export type Result<T> = Success<T> | Failure;

export function success<T>(value: T, advice: readonly Problem[] = []): Success<T> {
  return { ok: true, value, advice };
}

export function failure(...problems: readonly Problem[]): Failure {
  return { ok: false, problems };
}

/** Success with `value` when the problems are all advice; failure when one of them is an error. */
export function resultOf<T>(value: T, problems: readonly Problem[]): Result<T> {
  return problems.some((p) => p.severity === "error") ? { ok: false, problems } : success(value, problems);
}

/**
 * The problems or advice of a result, placed under `pointer` when given.
 *
 * @example
 * problemsIn(findMix(drill, "plai")).map(({ code }) => code) // ["MIX_UNKNOWN"]
 */
export function problemsIn(result: Result<unknown>, pointer?: string): readonly Problem[] {
  const problems = result.ok ? result.advice : result.problems;
  return pointer === undefined ? problems : problems.map((each) => placedUnder(each, pointer));
}

/** A failure whose problems are in a file. */
export function failureIn(file: string, problems: readonly Problem[]): Failure {
  return { ok: false, problems: problems.map((each) => placedUnder(each, "", file)) };
}
