// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { StudentPopulation } from "./population.js";
import { validate } from "./validate-population.js";

/**
 * The value as a `StudentPopulation`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkPopulation({}).ok // false
 */
export function checkPopulation(value: unknown): Result<StudentPopulation> {
  return checked<StudentPopulation>(value, validate);
}
