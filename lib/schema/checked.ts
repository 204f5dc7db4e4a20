import { success } from "../base/index.js";
import { copyData } from "./copyData.js";
import type { Result } from "./problem.js";
import { problemsFrom } from "./problems.js";
import type { Violation } from "./violation.js";

/** A compiled validator. It fills in defaults, tells whether the value is valid, and puts its complaints into `errors`; it throws them when there are very many. */
export interface Validator {
  (value: unknown): boolean;
  errors?: readonly Violation[] | null;
}

/**
 * A copy of the value with defaults filled in, or all problems that the validator finds.
 *
 * @example
 * checked(4, (value) => typeof value === "number").ok // true
 */
export function checked<T>(value: unknown, validate: Validator): Result<T> {
  const copy = copyData(value);
  if (!copy.ok) return copy;
  const violations = violationsOf(copy.value, validate);
  return violations.length === 0 ? success(copy.value as T) : { ok: false, problems: problemsFrom(violations) };
}

function violationsOf(value: unknown, validate: Validator): readonly Violation[] {
  try {
    return validate(value) ? [] : (validate.errors ?? []);
  } catch (given) {
    // A list thrown before its end may hold blanks: placeholders of a condition that was being evaluated.
    if (Array.isArray(given)) return (given as Violation[]).filter((each) => each.keyword !== undefined);
    throw given;
  }
}
