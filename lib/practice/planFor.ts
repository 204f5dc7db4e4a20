import { historyOf, type Plan, type PlanRequest, planSession } from "../plan/index.js";
import { eventsOf, type Store } from "../store/index.js";
import { type CourseInUse, standingInUse, useFor } from "./courseInUse.js";
import { findJournal } from "./findJournal.js";
import { learntOf } from "./learnt.js";
import type { Result } from "./problem.js";

export interface PlanForOptions extends CourseInUse, Omit<PlanRequest, "curriculum" | "standing" | "events"> {}

/**
 * What a student practises in so many minutes, and why. Nothing is written to the journal; a store that lasts keeps beside it what the takes teach of the student, so that the
 * next plan goes on from there. The other options are those of `planSession`.
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
  const key = { student, curriculum: course.name };
  const events = await eventsOf(store, key);
  const { population } = request;
  const belief =
    request.belief ??
    (await learntOf(store, key, { course: use.value.course, history: historyOf(events), population })).belief;
  return planSession({ ...request, curriculum: use.value.course, standing, events, belief });
}
