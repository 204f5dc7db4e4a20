import { type Result, success } from "../base/index.js";
import { copyOf } from "./copy.js";
import { problemsFrom } from "./problems.js";
import type { Violation } from "./violation.js";

/** A compiled validator: fills in defaults, says whether the value fits, and leaves what does not in `errors`; throws them when there are very many. */
export interface Validator {
  (value: unknown): boolean;
  errors?: readonly Violation[] | null;
}

/** A copy of the value with defaults filled in, or every problem the validator finds. */
export function checked<T>(value: unknown, validate: Validator): Result<T> {
  const copy = copyOf(value);
  if (!copy.ok) return copy;
  const violations = violationsOf(copy.value, validate);
  return violations.length === 0 ? success(copy.value as T) : { ok: false, problems: problemsFrom(violations) };
}

function violationsOf(value: unknown, validate: Validator): readonly Violation[] {
  try {
    return validate(value) ? [] : (validate.errors ?? []);
  } catch (given) {
    // Cut short in the middle, the list may hold blanks that stand for a condition being tried.
    if (Array.isArray(given)) return (given as Violation[]).filter((each) => each.keyword !== undefined);
    throw given;
  }
}
