// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { CompiledCourse } from "./compiled.js";
import { validate } from "./validate-compiled.js";

/**
 * The value as a `CompiledCourse`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkCompiled({}).ok // false
 */
export function checkCompiled(value: unknown): Result<CompiledCourse> {
  return checked<CompiledCourse>(value, validate);
}
