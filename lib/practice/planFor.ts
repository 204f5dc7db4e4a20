import { type Plan, type PlanRequest, planSession } from "../plan/index.js";
import { eventsOf, type Store } from "../store/index.js";
import { type CourseInUse, standingInUse, useFor } from "./courseInUse.js";
import { findJournal } from "./findJournal.js";
import type { Result } from "./problem.js";

export interface PlanForOptions extends CourseInUse, Omit<PlanRequest, "curriculum" | "standing" | "events"> {}

/**
 * What a student practises in so many minutes, and why; nothing is written. The other options are those of `planSession`.
 *
 * Problems: EDITION_BEHIND (see `useFor`), and those of `findJournal` and `planSession`. Rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * const plan = await planFor(store, "tern", { course, today: "2026-03-12", minutes: 20, seed: 1 });
 */
export async function planFor(
  store: Store,
  student: string,
  { course, before, ...request }: PlanForOptions,
): Promise<Result<Plan>> {
  const found = await findJournal(store, student, course.name);
  if (!found.ok) return found;
  const use = useFor(found.value.standing, { course, ...(before === undefined ? {} : { before }) });
  if (!use.ok) return use;
  const standing = standingInUse(found.value.standing, use.value);
  const events = await eventsOf(store, { student, curriculum: course.name });
  return planSession({ ...request, curriculum: use.value.course, standing, events });
}
