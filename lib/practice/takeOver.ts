import { success } from "../base/index.js";
import { type EditionEffect, effectOfEdition } from "../progress/index.js";
import type { Standing } from "../schema/index.js";
import { record, type Store } from "../store/index.js";
import { type CourseInUse, changeOptions } from "./courseInUse.js";
import { findJournal } from "./findJournal.js";
import type { Result } from "./problem.js";

export interface TakeOverOptions extends CourseInUse {
  /** The time of the change, RFC 3339. */
  readonly at: string;
}

/**
 * Takes a student over to another edition of the course, and tells what that means for them, drill by drill. Nothing is deleted; what the edition does not
 * have any more is listed as lost, and counts again in an edition that has it. In that edition already: no events.
 *
 * Problems: those of `findJournal`. Throws `RangeError` when `at` is not an RFC 3339 time; rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * const taken = await takeOver(store, "tern", { course: next, before: course, at: "2026-09-01T08:00:00Z" });
 */
export async function takeOver(
  store: Store,
  student: string,
  { at, ...use }: TakeOverOptions,
): Promise<Result<EditionEffect>> {
  const { course } = use;
  const found = await findJournal(store, student, course.name);
  if (!found.ok) return found;
  const effectOn = (standing: Standing): EditionEffect =>
    effectOfEdition(course, standing, changeOptions(standing, use, at));
  return success(
    await record(store, { student, curriculum: course.name }, (journal) =>
      // Erased since it was found: there is nobody to write of.
      journal?.standing === undefined ? { ...effectOn(found.value.standing), events: [] } : effectOn(journal.standing),
    ),
  );
}
