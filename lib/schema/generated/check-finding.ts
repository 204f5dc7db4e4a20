// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { Finding } from "./finding.js";
import { validate } from "./validate-finding.js";

/**
 * The value as a `Finding`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkFinding({}).ok // false
 */
export function checkFinding(value: unknown): Result<Finding> {
  return checked<Finding>(value, validate);
}
