import { type Problem, problemsOf, type Result } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import type { PageCourse } from "../../page/index.js";
import type { Engraver } from "../../render/sheet/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";
import { type EngravingOptions, engraveRiffs } from "./engraveRiffs.js";

const problem = problemsOf(fileCodes);

/** The courses of a page with their riffs in notes. Advice: PAGE_WITHOUT_SHEETS, where there is no engraver; and what riffs cannot be engraved for. */
export async function coursesWithRiffs(
  courses: readonly Curriculum[],
  {
    engraver,
    fonts,
    words,
    isOver,
  }: Pick<EngravingOptions, "fonts" | "words" | "isOver"> & { readonly engraver: Result<Engraver> },
): Promise<{ readonly courses: readonly PageCourse[]; readonly problems: readonly Problem[] }> {
  if (!engraver.ok) {
    const said = sayProblem("cli-problem.page-without-sheets");
    const remedy = sayProblem("cli-problem.page-without-sheets-remedy");
    return {
      courses: courses.map((course) => ({ course })),
      problems: [problem("PAGE_WITHOUT_SHEETS", said, {}, remedy)],
    };
  }
  const engraved: (PageCourse & { readonly problems: readonly Problem[] })[] = [];
  for (const course of courses) {
    const riffs = await engraveRiffs(course, { engraver: engraver.value, fonts, words, ...(isOver && { isOver }) });
    engraved.push({ course, ...riffs });
  }
  return { courses: engraved, problems: engraved.flatMap(({ problems }) => problems) };
}
