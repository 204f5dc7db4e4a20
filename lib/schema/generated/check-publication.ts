// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { Publication } from "./publication.js";
import { validate } from "./validate-publication.js";

/**
 * The value as a `Publication`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkPublication({}).ok // false
 */
export function checkPublication(value: unknown): Result<Publication> {
  return checked<Publication>(value, validate);
}
