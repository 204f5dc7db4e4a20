import { problemsOf } from "../base/index.js";

/** Problems with what a plan is asked for. */
export const planCodes = {
  PLAN_MINUTES_OUT_OF_RANGE: "error",
  PLAN_DATE_NOT_READ: "error",
  PLAN_CURRICULUM_OTHER: "error",
  PLAN_OPTION_OUT_OF_RANGE: "error",
  DEADLINE_PAST: "error",
} as const;

export const planProblem: ReturnType<typeof problemsOf<typeof planCodes>> = problemsOf(planCodes);
