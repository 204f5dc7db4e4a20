import { failure, type Problem, problemsIn, type Result, success } from "../base/index.js";
import { findDrill } from "../curriculum/index.js";
import { type Day, dayOf } from "../time/index.js";
import { planProblem } from "./codes.js";
import type { Deadline, PlanRequest } from "./request.js";

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
    const message = `a plan is for more than 0 and at most ${MOST_MINUTES} minutes, found ${minutes}`;
    problems.push(planProblem("PLAN_MINUTES_OUT_OF_RANGE", message, { pointer: "/minutes" }));
  }
  if (standing.curriculum !== curriculum.name) {
    const message = `the standing is in ${standing.curriculum}, the curriculum given is ${curriculum.name}`;
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
    const message = `the day to be ready by must come after today, ${today}; found ${deadline.on}`;
    problems.push(planProblem("DEADLINE_PAST", message, { pointer }));
  }
  checkRange(deadline.minutes, [1, MOST_MINUTES], "/deadline/minutes", problems);
  checkRange(deadline.daysAWeek, [0.5, 7], "/deadline/daysAWeek", problems);
  if (deadline.drill !== undefined)
    problems.push(...problemsIn(findDrill(curriculum, deadline.drill, { pointer: "/deadline/drill" })));
}

function dateIn(text: string, pointer: string, problems: Problem[]): Day | undefined {
  const day = dayOf(text);
  const message = `a date is written as 2026-03-12, found ${JSON.stringify(text.slice(0, 40))}`;
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
  const message = `${pointer.split("/").at(-1)} must be from ${low} to ${high}, found ${value}`;
  problems.push(planProblem("PLAN_OPTION_OUT_OF_RANGE", message, { pointer }));
}
