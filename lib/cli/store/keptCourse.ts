import {
  type Curriculum,
  failure,
  type Problem,
  problemsOf,
  type Result,
  readCurriculum,
  rewriteCurriculum,
} from "../../index.js";
import type { CourseText, Store } from "../../store/index.js";
import { fileCodes } from "../codes.js";
import { type Setting, tellProblems } from "../outcome.js";

const problem = problemsOf(fileCodes);

/** Stores the text of a course, and reports when the store has another text of the same edition. */
export async function keepCourse(setting: Setting, store: Store, text: CourseText): Promise<void> {
  if ((await store.keepCourse(text)) !== "replaced") return;
  const message = `edition ${text.edition} of ${text.curriculum} had another text until now; students in it go on with this one`;
  const remedy = "give a course a new edition number whenever you change it";
  tellProblems(setting, [problem("COURSE_TEXT_REPLACED", message, { file: text.file }, remedy)]);
}

/** The stored course of an edition. */
export async function openKeptCourse(
  store: Store,
  { curriculum, edition }: { readonly curriculum: string; readonly edition: string },
): Promise<Result<Curriculum>> {
  const text = await store.course(curriculum, edition);
  if (text === undefined) {
    const message = `edition ${edition} of ${curriculum} is not kept in ${store.place}`;
    return failure(problem("COURSE_NOT_KEPT", message, {}, "name its file with --course"));
  }
  const options = {
    file: text.file,
    readFile: (path: string) => (Object.hasOwn(text.files, path) ? text.files[path] : undefined),
  };
  const course = readCurriculum(text.text, options);
  if (course.ok) return course;
  // An edition that was kept before its spelling changed: it is what its students are in, and nobody can rewrite it.
  const rewritten = rewriteCurriculum(text.text, options);
  return rewritten.ok ? readCurriculum(rewritten.value, options) : course;
}

/** The courses of a store; each edition is read once. */
export interface KeptCourses {
  read(curriculum: string, edition: string): Promise<void>;
  /** The course of an edition; `undefined` when it is not stored or cannot be used. */
  find(curriculum: string, edition: string): Curriculum | undefined;
  /** Problems of editions that were not found or could not be used. */
  problems(): readonly Problem[];
}

export function openCourses(store: Store): KeptCourses {
  const known = new Map<string, Result<Curriculum>>();
  const missed = new Map<string, readonly Problem[]>();
  const nameOf = (curriculum: string, edition: string): string => JSON.stringify([curriculum, edition]);
  return {
    read: async (curriculum, edition) => {
      const name = nameOf(curriculum, edition);
      if (!known.has(name)) known.set(name, await openKeptCourse(store, { curriculum, edition }));
    },
    find: (curriculum, edition) => {
      const name = nameOf(curriculum, edition);
      const found = known.get(name);
      if (found?.ok === false) missed.set(name, found.problems);
      return found?.ok === true ? found.value : undefined;
    },
    problems: () => [...missed.values()].flat(),
  };
}
