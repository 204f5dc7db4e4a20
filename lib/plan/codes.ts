import { problemsOf } from "../base/index.js";

/** Problems with what a plan is asked for. */
export const planCodes = {
  PLAN_MINUTES_OUT_OF_RANGE: {
    severity: "error",
    means: "A plan is asked for no time at all, or for more than a day has room for.",
  },
  PLAN_DATE_NOT_READ: { severity: "error", means: "A date is not written as 2026-03-12, or there is no such day." },
  PLAN_CURRICULUM_OTHER: { severity: "error", means: "The standing is in another curriculum than the one given." },
  PLAN_OPTION_OUT_OF_RANGE: { severity: "error", means: "A setting of a plan lies outside its range." },
  DEADLINE_PAST: { severity: "error", means: "The day something must be ready by is not after today." },
} as const;

export const planProblem: ReturnType<typeof problemsOf<typeof planCodes>> = problemsOf(planCodes);
