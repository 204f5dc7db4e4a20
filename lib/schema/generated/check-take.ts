// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { Take } from "./take.js";
import { validate } from "./validate-take.js";

/**
 * The value as a `Take`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkTake({}).ok // false
 */
export function checkTake(value: unknown): Result<Take> {
  return checked<Take>(value, validate);
}
