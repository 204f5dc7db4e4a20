import { problemsOf } from "../../base/index.js";
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
