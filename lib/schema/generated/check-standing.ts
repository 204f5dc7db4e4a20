// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { Standing } from "./standing.js";
import { validate } from "./validate-standing.js";

/**
 * The value as a `Standing`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkStanding({}).ok // false
 */
export function checkStanding(value: unknown): Result<Standing> {
  return checked<Standing>(value, validate);
}
