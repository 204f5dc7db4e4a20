import type { Result } from "../../../base/index.js";
import type { Plan, PlayLine } from "../../../plan/index.js";
import { planFor } from "../../../practice/index.js";
import type { Page } from "../page.js";
import type { Route } from "../route.js";
import { dayOf, minutesLeft } from "./session.js";

/** The plan for the minutes that are left of today's practice, made anew from the journal as it is now. */
export async function todaysPlan(page: Page, now: Date): Promise<Result<Plan>> {
  const { course } = await page.course();
  const today = dayOf(now);
  return planFor(await page.store(), page.student!.name, { course, today, minutes: minutesLeft(now), seed: today });
}

/** Where a line of a plan is played; what is only listened to, in the mix in which it is heard. */
export function placeOf({ drill, rung, steps: [step] }: PlayLine): Partial<Route> & Pick<Route, "view"> {
  const isHeard = step?.kind === "preparation" && step.gate === undefined;
  return { view: "drill", drill, rung, asked: isHeard ? { mix: step.mix } : {} };
}
