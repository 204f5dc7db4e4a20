import { failure, success } from "../base/index.js";
import type { Curriculum } from "../curriculum/index.js";
import { beginJournal, type Entries, LONGEST_NAME } from "../progress/index.js";
import { record, type Store } from "../store/index.js";
import { codePointText } from "./codePointText.js";
import { practiceProblem } from "./codes.js";
import type { Problem, Result } from "./problem.js";
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
 * Problems: STUDENT_NAME_LENGTH, STUDENT_NAME_UNSEEN. Throws `RangeError` when `at` is not an RFC 3339 time; rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * const enrolled = await enrol(store, "tern", { course, at: "2026-03-02T17:00:00Z" });
 */
export async function enrol(store: Store, student: string, { course, at }: EnrolOptions): Promise<Result<Enrolment>> {
  const unusable = studentNameProblems(student);
  // A name that was enrolled before names were looked at so closely is still read.
  const isKnown = unusable.length > 0 && (await store.open({ student, curriculum: course.name })) !== undefined;
  if (unusable.length > 0 && !isKnown) return failure(...unusable);
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
 * Control characters, directions, separators of lines, halves of surrogate pairs, and format characters: they cannot be seen, so two names would look the same. U+200C and
 * U+200D are let through: the spelling of Persian and of Indian languages needs them.
 */
const UNSEEN = /(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu;

/**
 * Whether a new student can have this name: STUDENT_NAME_LENGTH; STUDENT_NAME_UNSEEN, with the place of the first character that cannot be seen, or of a blank at the
 * beginning or end; or nothing.
 *
 * @example
 * studentNameProblems(""); // one problem: STUDENT_NAME_LENGTH
 */
export function studentNameProblems(student: string): readonly Problem[] {
  if (student !== "" && student.length <= LONGEST_NAME) return unseenIn(student);
  const characters = { most: LONGEST_NAME, found: student.length };
  const message = sayProblem("practice-problem.student-name-length", characters);
  const remedy = sayProblem("practice-problem.student-name-length-remedy");
  return [practiceProblem("STUDENT_NAME_LENGTH", message, {}, remedy)];
}

function unseenIn(student: string): readonly Problem[] {
  const seen = student.replaceAll(UNSEEN, "").trim();
  if (seen === student) return [];
  const offset = [...student].findIndex((character, i) => character !== [...seen][i]);
  const character = [...student][offset]!;
  const found = codePointText(character);
  const message = sayProblem("practice-problem.student-name-unseen", { place: offset + 1, found });
  const remedy =
    seen === ""
      ? sayProblem("practice-problem.student-name-length-remedy")
      : sayProblem("practice-problem.student-name-unseen-remedy", { name: seen });
  return [practiceProblem("STUDENT_NAME_UNSEEN", message, { pointer: "/student", offset }, remedy)];
}
