import { problemsOf } from "../../base/index.js";
import type { CourseText, Store } from "../../store/index.js";
import { fileCodes } from "../codes.js";
import { type Setting, tellProblems } from "../outcome.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);

/** Stores the text of a course, and reports when the store has another text of the same edition. */
export async function keepCourse(setting: Setting, store: Store, text: CourseText): Promise<void> {
  if ((await store.keepCourse(text)) !== "replaced") return;
  const course = { edition: text.edition, course: text.curriculum };
  const message = sayProblem("cli-problem.course-text-replaced", course);
  const remedy = sayProblem("cli-problem.course-text-replaced-remedy");
  tellProblems(setting, [problem("COURSE_TEXT_REPLACED", message, { file: text.file }, remedy)]);
}
