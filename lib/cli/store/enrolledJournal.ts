import { type Result, success } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { type EnrolledJournal, findJournal, keptCourse } from "../../practice/index.js";
import type { CourseText, Store } from "../../store/index.js";
import { readCourseText } from "../input/courseFile.js";
import type { Setting } from "../outcome.js";

/** A student's journal with its course. */
export interface Enrolled {
  /** In the language of the course. */
  readonly setting: Setting;
  readonly journal: EnrolledJournal;
  /** The course of the named file, else the stored one of the student's edition. */
  readonly course: Curriculum;
  /** The course of the student's edition, when it is stored. */
  readonly kept?: Curriculum;
  /** The text of a course from a file. */
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
  const journal = await findJournal(store, student, file === undefined ? course : file.value.course.name);
  if (!journal.ok) return journal;
  const kept = await keptCourse(store, journal.value.standing);
  const before = kept.ok ? { kept: kept.value } : {};
  const used = file ?? (kept.ok ? success({ course: kept.value }) : kept);
  if (!used.ok) return used;
  const spoken = await setting.inLanguageOf(used.value.course);
  return success({ setting: spoken, journal: journal.value, ...used.value, ...before });
}
