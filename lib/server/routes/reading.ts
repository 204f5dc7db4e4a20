import { failure, success } from "../../base/index.js";
import { type CourseInUse, useFor } from "../../practice/index.js";
import { notThere } from "../access/mayAsk.js";
import { etagOf } from "../answer/contentAnswer.js";
import { serverProblem } from "../codes.js";
import type { Body, Call } from "../model.js";
import type { Result } from "../problem.js";
import { sayProblem } from "../say.js";

/** The JSON body of a call, which its schema has been held to. */
export function bodyOf<T>(body: Body | undefined): T {
  if (body === undefined || !("value" in body))
    throw new TypeError("an operation without a JSON body was asked for it");
  return body.value as T;
}

/** A time so many days later, RFC 3339. */
export function daysAfter(at: string, days: number): string {
  return new Date(Date.parse(at) + days * 86_400_000).toISOString();
}

/**
 * The course that the path names, with the edition its student is in; a student whom another process has taken to a later edition goes on in that. Problems: NOT_THERE,
 * EDITION_BEHIND.
 */
export async function useOf(call: Call): Promise<Result<CourseInUse>> {
  const { school, parameters } = call;
  const course = school.courses.get(parameters.course!);
  if (course === undefined) return notThere();
  const journal = await school.store.open({ student: parameters.student!, curriculum: course.name });
  const edition = journal?.standing?.edition;
  if (edition === undefined) return notThere();
  const before = edition === course.edition ? undefined : await school.kept.find(course.name, edition);
  return useFor(journal!.standing!, { course, ...(before === undefined ? {} : { before }) });
}

/** Answers by the course in use, and once more where its student was taken to a later edition meanwhile. Problems: those of `useOf` and of the answer. */
export async function inUse<T>(call: Call, answer: (use: CourseInUse) => Promise<Result<T>>): Promise<Result<T>> {
  const once = async (): Promise<Result<T>> => {
    const use = await useOf(call);
    return use.ok ? answer(use.value) : use;
  };
  const answered = await once();
  const isBehind = !answered.ok && answered.problems.some(({ code }) => code === "EDITION_BEHIND");
  return isBehind ? once() : answered;
}

/** Refuses a change that rests on another standing than the one there is. Problem: STANDING_CHANGED. */
export function requireMatch({ ifMatch }: Call, standing: unknown): Result<void> {
  const tags = ifMatch?.split(/, */);
  if (tags === undefined || tags.includes("*") || tags.includes(etagOf(JSON.stringify(standing))))
    return success(undefined);
  const message = sayProblem("server-problem.standing-changed");
  return failure(serverProblem("STANDING_CHANGED", message, {}, sayProblem("server-problem.standing-changed-remedy")));
}
