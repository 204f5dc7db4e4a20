import { type Problem, placedUnder } from "./problem.js";

export interface Success<T, Code extends string = string> {
  readonly ok: true;
  readonly value: T;
  /** Problems of severity `advice`; empty when there are none. */
  readonly advice: readonly Problem<Code>[];
}
export interface Failure<Code extends string = string> {
  readonly ok: false;
  /** All problems found, at least one of them an error. */
  readonly problems: readonly Problem<Code>[];
}
/** A value, or all problems that prevent it. `Code`: the codes they can have, where they are known. */
export type Result<T, Code extends string = string> = Success<T, Code> | Failure<Code>;

export function success<T, Code extends string = never>(
  value: T,
  advice: readonly Problem<Code>[] = [],
): Success<T, Code> {
  return { ok: true, value, advice };
}

export function failure<Code extends string>(...problems: readonly Problem<Code>[]): Failure<Code> {
  return { ok: false, problems };
}

/** Success with `value` when the problems are all advice; failure when one of them is an error. */
export function resultOf<T, Code extends string>(value: T, problems: readonly Problem<Code>[]): Result<T, Code> {
  return problems.some((p) => p.severity === "error") ? { ok: false, problems } : success(value, problems);
}

/**
 * The problems or advice of a result, placed under `pointer` when given.
 *
 * @example
 * problemsIn(findMix(drill, "plai")).map(({ code }) => code) // ["MIX_UNKNOWN"]
 */
export function problemsIn<Code extends string>(
  result: Result<unknown, Code>,
  pointer?: string,
): readonly Problem<Code>[] {
  const problems = result.ok ? result.advice : result.problems;
  return pointer === undefined ? problems : problems.map((each) => placedUnder(each, pointer));
}

/** A failure whose problems are in a file. */
export function failureIn<Code extends string>(file: string, problems: readonly Problem<Code>[]): Failure<Code> {
  return { ok: false, problems: problems.map((each) => placedUnder(each, "", file)) };
}
