// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { Report } from "./report.js";
import { validate } from "./validate-report.js";

/**
 * The value as a `Report`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkReport({}).ok // false
 */
export function checkReport(value: unknown): Result<Report> {
  return checked<Report>(value, validate);
}
