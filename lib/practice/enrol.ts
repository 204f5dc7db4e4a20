import { failure, type Problem, type Result, success } from "../base/index.js";
import type { Curriculum } from "../curriculum/index.js";
import { beginJournal, type Entries, LONGEST_NAME } from "../progress/index.js";
import { record, type Store } from "../store/index.js";
import { practiceProblem } from "./codes.js";
import { sayProblem } from "./say.js";

export interface EnrolOptions {
  readonly course: Curriculum;
  /** The time of enrolment, RFC 3339. */
  readonly at: string;
}

/** The standing of a student who is enrolled, and the events that were written; none when the student was enrolled before (`known`). */
export interface Enrolment extends Entries {
  readonly known: boolean;
}

/**
 * Begins a course for a student. One who is in the course already stays as they are, in whatever edition: `takeOver` changes that. Sent again it
 * is answered as before, with `known`.
 *
 * Problem: STUDENT_NAME_LENGTH. Throws `RangeError` when `at` is not an RFC 3339 time; rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * const enrolled = await enrol(store, "tern", { course, at: "2026-03-02T17:00:00Z" });
 */
export async function enrol(store: Store, student: string, { course, at }: EnrolOptions): Promise<Result<Enrolment>> {
  const unusable = studentNameProblems(student);
  if (unusable.length > 0) return failure(...unusable);
  const begun = beginJournal(course, student, at);
  return success(
    await record<Enrolment>(store, { student, curriculum: course.name }, (journal) =>
      journal?.standing === undefined
        ? { ...begun, known: false }
        : { events: [], standing: journal.standing, known: true },
    ),
  );
}

/**
 * Whether a journal can hold the name of a student: STUDENT_NAME_LENGTH, or nothing.
 *
 * @example
 * studentNameProblems(""); // one problem: STUDENT_NAME_LENGTH
 */
export function studentNameProblems(student: string): readonly Problem[] {
  if (student !== "" && student.length <= LONGEST_NAME) return [];
  const characters = { most: LONGEST_NAME, found: student.length };
  const message = sayProblem("practice-problem.student-name-length", characters);
  const remedy = sayProblem("practice-problem.student-name-length-remedy");
  return [practiceProblem("STUDENT_NAME_LENGTH", message, {}, remedy)];
}
