import { type Curriculum, compareEditions, type EditionChanges, editionProblems } from "../curriculum/index.js";
import { type EditionEffect, effectOfEdition } from "../progress/index.js";
import type { Store } from "../store/index.js";
import type { CourseFinder } from "./keptCourses.js";
import type { Problem } from "./problem.js";

export interface CheckCourseOptions {
  /** The edition to compare with; when left out, the editions that students in the store are in, as far as `courseOf` finds them. */
  readonly against?: Curriculum;
  /** Where the students are; nobody when left out. */
  readonly store?: Store;
  /** The time at which students would be taken over, RFC 3339. */
  readonly at: string;
  /** Finds the editions that students are in, such as `keptCourses(store).find`. */
  readonly courseOf?: CourseFinder;
}

/** What a new edition does. */
export interface CourseCheck {
  /** Errors and advice about the new edition against the old ones. */
  readonly problems: readonly Problem[];
  /** Rung by rung, for each old edition of this course. */
  readonly comparisons: readonly EditionChanges[];
  /** What `takeOver` would do to each student of the course; empty when there is nobody. */
  readonly effects: readonly EditionEffect[];
}

/**
 * What a new edition of a course does to its rungs and to the students who are in the middle of it; nothing is written.
 *
 * Throws `RangeError` when `at` is not an RFC 3339 time and there are students; rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * const { problems } = await checkCourse(next, { against: course, at: "2026-09-01T08:00:00Z" });
 */
export async function checkCourse(
  course: Curriculum,
  { against, store, at, courseOf }: CheckCourseOptions,
): Promise<CourseCheck> {
  const effects: EditionEffect[] = [];
  const editions = new Map<string, Curriculum>();
  if (store !== undefined)
    for await (const entry of store.journals()) {
      const standing = entry.curriculum === course.name ? (await store.open(entry))?.standing : undefined;
      if (standing === undefined) continue;
      const old = await courseOf?.(standing.curriculum, standing.edition);
      if (old !== undefined) editions.set(old.edition, old);
      effects.push(effectOfEdition(course, standing, { at, ...(old === undefined ? {} : { before: old }) }));
    }
  const compared = against === undefined ? [...editions.values()] : [against];
  return {
    problems: compared.flatMap((old) => editionProblems(old, course)),
    comparisons: compared.filter(({ name }) => name === course.name).map((old) => compareEditions(old, course)),
    effects,
  };
}
