// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Result } from "../problem.js";
import { checked } from "../checked.js";
import type { JournalEvent } from "./event.js";
import { validate } from "./validate-event.js";

/**
 * The value as a `JournalEvent`, defaults filled in, or every problem with it; the value given is not changed.
 *
 * @example
 * checkEvent({}).ok // false
 */
export function checkEvent(value: unknown): Result<JournalEvent> {
  return checked<JournalEvent>(value, validate);
}
