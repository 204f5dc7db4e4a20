// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { RehearsalReport } from "./rehearsal.js";
import { validate } from "./validate-rehearsal.js";

/**
 * The value as a `RehearsalReport`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkRehearsal({}).ok // false
 */
export function checkRehearsal(value: unknown): Result<RehearsalReport> {
  return checked<RehearsalReport>(value, validate);
}
