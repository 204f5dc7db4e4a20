// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { Score } from "./score.js";
import { validate } from "./validate-score.js";

/**
 * The value as a `Score`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkScore({}).ok // false
 */
export function checkScore(value: unknown): Result<Score> {
  return checked<Score>(value, validate);
}
