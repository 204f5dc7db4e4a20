import { type Curriculum, failure, nearestName, problemsOf, type Result, type Standing, success } from "../../index.js";
import type { CourseText, OpenJournal, Store } from "../../store/index.js";
import { fileCodes } from "../codes.js";
import { readCourseText } from "../input/courseFile.js";
import type { Setting } from "../outcome.js";
import { openKeptCourse } from "./keptCourse.js";

const problem = problemsOf(fileCodes);

/** A journal with an enrolled student. */
export interface EnrolledJournal extends OpenJournal {
  readonly standing: Standing;
}

/** Most names searched for a similar one; our choice: a school. */
const NAMES_SEARCHED = 10_000;

/** The journal of a student: the only one, or the one of the named course. */
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

/** A student's journal with its course. */
export interface Enrolled {
  readonly journal: EnrolledJournal;
  /** The course of the named file, else the stored one of the student's edition. */
  readonly course: Curriculum;
  /** The course of the student's edition, when it is stored. */
  readonly kept?: Curriculum;
  /** Problems of a course from a file. */
  readonly text?: CourseText;
}

/** Opens a student's journal and course; `course` is a file, or the name of a course the student is in. */
export async function openEnrolled(
  setting: Setting,
  store: Store,
  { student, course }: { readonly student: string; readonly course: string | undefined },
): Promise<Result<Enrolled>> {
  const file = course !== undefined && /\.ya?ml$/i.test(course) ? readCourseText(course, setting.sources) : undefined;
  if (file?.ok === false) return file;
  const journal = await openJournal(store, student, file === undefined ? course : file.value.course.name);
  if (!journal.ok) return journal;
  const kept = await openKeptCourse(store, journal.value.standing);
  const before = kept.ok ? { kept: kept.value } : {};
  if (file !== undefined) return success({ journal: journal.value, ...file.value, ...before });
  return kept.ok ? success({ journal: journal.value, course: kept.value, ...before }) : kept;
}
