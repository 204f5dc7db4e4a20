// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { CurriculumDocument } from "./curriculum.js";
import { validate } from "./validate-curriculum.js";

/**
 * The value as a `CurriculumDocument`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkCurriculum({}).ok // false
 */
export function checkCurriculum(value: unknown): Result<CurriculumDocument> {
  return checked<CurriculumDocument>(value, validate);
}
