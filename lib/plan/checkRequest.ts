import { failure, type Problem, problemsIn, type Result, success } from "../base/index.js";
import { findDrill } from "../curriculum/index.js";
import { type Day, dayOf } from "../time/index.js";
import { planProblem } from "./codes.js";
import type { Deadline, PlanRequest } from "./request.js";
import { sayProblem } from "./say.js";

/** Minutes of a plan at most: ten hours, more than anybody should play in a day. Our choice. */
const MOST_MINUTES = 600;
/** Range of the chance aimed at. Our choice: below it a clean take is luck, above it nothing is new. */
const TARGETS = [0.5, 0.99] as const;

/** All problems of a request, or the day it is for. */
export function checkRequest(request: PlanRequest): Result<{ readonly today: Day }> {
  const { curriculum, standing, today, minutes, target, deadline } = request;
  const problems: Problem[] = [];
  const day = dateIn(today, "/today", problems);
  if (!(minutes > 0 && minutes <= MOST_MINUTES)) {
    const range = { most: MOST_MINUTES, found: String(minutes) };
    const message = sayProblem("plan-problem.plan-minutes-out-of-range", range);
    problems.push(planProblem("PLAN_MINUTES_OUT_OF_RANGE", message, { pointer: "/minutes" }));
  }
  if (standing.curriculum !== curriculum.name) {
    const names = { standing: standing.curriculum, given: curriculum.name };
    const message = sayProblem("plan-problem.plan-curriculum-other", names);
    problems.push(planProblem("PLAN_CURRICULUM_OTHER", message));
  }
  checkRange(target, TARGETS, "/target", problems);
  if (deadline !== undefined) checkDeadline(request, { deadline, day, problems });
  return problems.length > 0 ? failure(...problems) : success({ today: day! });
}

function checkDeadline(
  { curriculum, today }: PlanRequest,
  {
    deadline,
    day,
    problems,
  }: { readonly deadline: Deadline; readonly day: Day | undefined; readonly problems: Problem[] },
): void {
  const pointer = "/deadline/on";
  const on = dateIn(deadline.on, pointer, problems);
  if (day !== undefined && on !== undefined && on <= day) {
    const message = sayProblem("plan-problem.deadline-past", { today, found: deadline.on });
    problems.push(planProblem("DEADLINE_PAST", message, { pointer }));
  }
  checkRange(deadline.minutes, [1, MOST_MINUTES], "/deadline/minutes", problems);
  checkRange(deadline.daysAWeek, [0.5, 7], "/deadline/daysAWeek", problems);
  if (deadline.drill !== undefined)
    problems.push(...problemsIn(findDrill(curriculum, deadline.drill, { pointer: "/deadline/drill" })));
}

function dateIn(text: string, pointer: string, problems: Problem[]): Day | undefined {
  const day = dayOf(text);
  const found = JSON.stringify(text.slice(0, 40));
  const message = sayProblem("plan-problem.plan-date-not-read", { found });
  if (day === undefined) problems.push(planProblem("PLAN_DATE_NOT_READ", message, { pointer }));
  return day;
}

function checkRange(
  value: number | undefined,
  [low, high]: readonly [number, number],
  pointer: string,
  problems: Problem[],
): void {
  if (value === undefined || (value >= low && value <= high)) return;
  const option = pointer.split("/").at(-1)!;
  const message = sayProblem("plan-problem.plan-option-out-of-range", { option, low, high, found: String(value) });
  problems.push(planProblem("PLAN_OPTION_OUT_OF_RANGE", message, { pointer }));
}
