import { failure } from "../base/index.js";
import { type Curriculum, factsKept, readCurriculum, rewriteCurriculum } from "../curriculum/index.js";
import type { CourseText, Store } from "../store/index.js";
import { practiceProblem } from "./codes.js";
import type { Problem, Result } from "./problem.js";
import { sayProblem } from "./say.js";

/**
 * The course of an edition as a store keeps it. A `Standing` names both.
 *
 * Problems: COURSE_NOT_KEPT, and those of `readCurriculum`. Rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * const before = await keptCourse(store, { curriculum: "quayside-time", edition: "1.0.0" });
 */
export async function keptCourse(
  store: Store,
  { curriculum, edition }: { readonly curriculum: string; readonly edition: string },
): Promise<Result<Curriculum>> {
  const text = await store.course(curriculum, edition);
  if (text === undefined) {
    const course = { edition, course: curriculum, place: store.place };
    const message = sayProblem("practice-problem.course-not-kept", course);
    const remedy = sayProblem("practice-problem.course-not-kept-remedy");
    return failure(practiceProblem("COURSE_NOT_KEPT", message, {}, remedy));
  }
  return readKeptCourse(text);
}

/** Reads a course as it was kept. Problems: those of `readCurriculum`. */
export function readKeptCourse(text: CourseText): Result<Curriculum> {
  const readFile = (path: string): Uint8Array | undefined =>
    Object.hasOwn(text.files, path) ? text.files[path] : undefined;
  const options = { file: text.file, readFile, readRecording: (path: string) => factsKept(readFile(path)) };
  const course = readCurriculum(text.text, options);
  if (course.ok) return course;
  // An edition that was kept before its spelling changed: it is what its students are in, and nobody can rewrite it.
  const rewritten = rewriteCurriculum(text.text, options);
  return rewritten.ok ? readCurriculum(rewritten.value, options) : course;
}

/** Finds an edition of a course; `undefined` when it is not at hand. */
export type CourseFinder = (curriculum: string, edition: string) => Promise<Curriculum | undefined>;

/** The courses a store keeps, each edition read once. */
export interface KeptCourses {
  readonly find: CourseFinder;
  /** What was wrong with an edition that was looked for and not found; nothing otherwise. */
  problemsOf(curriculum: string, edition: string): readonly Problem[];
}

/**
 * Opens the courses that a store keeps, for `reportOf` and `checkCourse`.
 *
 * @example
 * const { report } = await reportOf(store, { at: "2026-03-30T18:00:00Z", courseOf: keptCourses(store).find });
 */
export function keptCourses(store: Store): KeptCourses {
  const known = new Map<string, Promise<Result<Curriculum>>>();
  const nameOf = (curriculum: string, edition: string): string => JSON.stringify([curriculum, edition]);
  const missed = new Map<string, readonly Problem[]>();
  return {
    find: async (curriculum, edition) => {
      const name = nameOf(curriculum, edition);
      if (!known.has(name)) known.set(name, keptCourse(store, { curriculum, edition }));
      const found = await known.get(name)!;
      if (!found.ok) missed.set(name, found.problems);
      return found.ok ? found.value : undefined;
    },
    problemsOf: (curriculum, edition) => missed.get(nameOf(curriculum, edition)) ?? [],
  };
}
