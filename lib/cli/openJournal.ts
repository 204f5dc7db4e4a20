import { failure, nearestName, problemsOf, type Result, type Standing, success } from "../index.js";
import type { OpenJournal, Store } from "../store/index.js";
import { fileCodes } from "./codes.js";

const problem = problemsOf(fileCodes);

/** A journal in which somebody is enrolled. */
export interface EnrolledJournal extends OpenJournal {
  readonly standing: Standing;
}

/** Names looked through for the one that was meant; our choice: a school. */
const NAMES_SEARCHED = 10_000;

/** The journal of a student: the only one, or that in the course named. */
export async function openJournal(
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
    const message = `${student} is enrolled in ${courses.join(", ")}`;
    return failure(problem("COURSE_NOT_CHOSEN", message, {}, "choose one with --course"));
  }
  const journal = courses.includes(name) ? await store.open({ student, curriculum: name }) : undefined;
  if (journal?.standing !== undefined) return success({ ...journal, standing: journal.standing });
  const message = `${student} is not enrolled in ${name}, but in ${courses.join(", ")}`;
  return failure(problem("NOT_ENROLLED_IN_COURSE", message, {}, "enrol the student in this course first"));
}

async function unknownStudent(store: Store, student: string): Promise<Result<never>> {
  const names = new Set<string>();
  for await (const entry of store.journals()) {
    names.add(entry.student);
    if (names.size >= NAMES_SEARCHED) break;
  }
  const nearest = nearestName(student, [...names]);
  const remedy = nearest === undefined ? "enrol the student first" : `write ${nearest}, or enrol the student first`;
  return failure(problem("STUDENT_UNKNOWN", `nobody called ${student} is enrolled in ${store.place}`, {}, remedy));
}
