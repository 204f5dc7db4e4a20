import type { Result } from "../../../base/index.js";
import type { Plan } from "../../../plan/index.js";
import { planFor } from "../../../practice/index.js";
import type { Page } from "../page.js";
import { dayOf, minutesLeft } from "./session.js";

/** The plan for the minutes that are left of today's practice, made anew from the journal as it is now. */
export async function todaysPlan(page: Page, now: Date): Promise<Result<Plan>> {
  const { course } = await page.course();
  const today = dayOf(now);
  return planFor(await page.store(), page.student!.name, { course, today, minutes: minutesLeft(now), seed: today });
}
