import { failure, nearestName, success } from "../base/index.js";
import type { Standing } from "../schema/index.js";
import type { OpenJournal, Store } from "../store/index.js";
import { practiceProblem } from "./codes.js";
import type { Result } from "./problem.js";
import { sayProblem } from "./say.js";

/** A journal in which somebody is enrolled. */
export interface EnrolledJournal extends OpenJournal {
  readonly standing: Standing;
}

/** Names looked through for the one that was meant. Our choice: a school. */
const NAMES_SEARCHED = 10_000;

/**
 * The journal of a student: the one in the course named, or the only one.
 *
 * Problems: STUDENT_UNKNOWN, whose remedy has the nearest name: for teachers, not to be passed on to a student; NOT_ENROLLED_IN_COURSE; COURSE_NOT_CHOSEN, when there are several. Rejects with a
 * `StoreProblem` when the store fails.
 *
 * @example
 * const journal = await findJournal(store, "tern", "quayside-time");
 */
export async function findJournal(
  store: Store,
  student: string,
  curriculum?: string,
): Promise<Result<EnrolledJournal>> {
  const courses: string[] = [];
  for await (const entry of store.journals({ student }))
    if (entry.edition !== undefined) courses.push(entry.curriculum);
  if (courses.length === 0) return unknownStudent(store, student);
  const name = curriculum ?? courses[0]!;
  if (curriculum === undefined && courses.length > 1) {
    const message = sayProblem("practice-problem.course-not-chosen", { student, courses });
    const remedy = sayProblem("practice-problem.course-not-chosen-remedy");
    return failure(practiceProblem("COURSE_NOT_CHOSEN", message, {}, remedy));
  }
  const journal = courses.includes(name) ? await store.open({ student, curriculum: name }) : undefined;
  if (journal?.standing !== undefined) return success({ ...journal, standing: journal.standing });
  const message = sayProblem("practice-problem.not-enrolled-in-course", { student, course: name, courses });
  const remedy = sayProblem("practice-problem.not-enrolled-in-course-remedy");
  return failure(practiceProblem("NOT_ENROLLED_IN_COURSE", message, {}, remedy));
}

async function unknownStudent(store: Store, student: string): Promise<Result<never>> {
  const names = new Set<string>();
  for await (const entry of store.journals()) {
    names.add(entry.student);
    if (names.size >= NAMES_SEARCHED) break;
  }
  const nearest = nearestName(student, [...names]);
  const remedy =
    nearest === undefined
      ? sayProblem("practice-problem.student-unknown-remedy")
      : sayProblem("practice-problem.student-nearest-remedy", { nearest });
  const message = sayProblem("practice-problem.student-unknown", { student });
  return failure(practiceProblem("STUDENT_UNKNOWN", message, {}, remedy));
}
