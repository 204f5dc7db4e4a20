// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { PlanDocument } from "./plan.js";
import { validate } from "./validate-plan.js";

/**
 * The value as a `PlanDocument`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkPlan({}).ok // false
 */
export function checkPlan(value: unknown): Result<PlanDocument> {
  return checked<PlanDocument>(value, validate);
}
