import { type Problem, problemsOf, type Result } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import type { PageCourse } from "../../page/index.js";
import type { Engraver, SheetFonts } from "../../render/sheet/index.js";
import type { Words } from "../../words/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";
import { engraveRiffs } from "./engraveRiffs.js";

const problem = problemsOf(fileCodes);

/** The courses of a page with their riffs in notes. Advice: PAGE_WITHOUT_SHEETS, where there is no engraver; and what riffs cannot be engraved for. */
export function coursesWithRiffs(
  courses: readonly Curriculum[],
  {
    engraver,
    fonts,
    words,
  }: { readonly engraver: Result<Engraver>; readonly fonts: SheetFonts; readonly words: Words },
): { readonly courses: readonly PageCourse[]; readonly problems: readonly Problem[] } {
  if (!engraver.ok) {
    const said = sayProblem("cli-problem.page-without-sheets");
    const remedy = sayProblem("cli-problem.page-without-sheets-remedy");
    return {
      courses: courses.map((course) => ({ course, sheets: [] })),
      problems: [problem("PAGE_WITHOUT_SHEETS", said, {}, remedy)],
    };
  }
  const engraved = courses.map((course) => ({
    course,
    ...engraveRiffs(course, { engraver: engraver.value, fonts, words }),
  }));
  return { courses: engraved, problems: engraved.flatMap(({ problems }) => problems) };
}
