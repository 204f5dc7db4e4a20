import { failure, problemsOf, type Result, success } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { changeEdition } from "../../progress/index.js";
import type { JournalEvent, Standing } from "../../schema/index.js";
import { fileCodes } from "../codes.js";
import { openCourse } from "../input/courseFile.js";
import { readJournalFile } from "../input/journalFile.js";
import { type Setting, tellProblems } from "../outcome.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);

/** The input of a plan, from files or from a store. */
export interface PlanSource {
  readonly curriculum: Curriculum;
  /** Moved to the edition of that curriculum; nothing is written. */
  readonly standing: Standing;
  readonly events: readonly JournalEvent[];
}

/** From a journal and a course in files. Problems of single events are reported, and the others count. */
export function sourceInFiles(
  setting: Setting,
  student: string,
  { course, journal }: { readonly course: string; readonly journal: string },
): Result<PlanSource> {
  const curriculum = openCourse(course, setting.sources);
  if (!curriculum.ok) return curriculum;
  const of = { student, curriculum: curriculum.value.name };
  const read = readJournalFile(setting, journal, of);
  if (!read.ok) return read;
  const { standing, problems } = read.value;
  if (standing === undefined) {
    const message = sayProblem("cli-problem.student-not-in-journal", { student, course: of.curriculum });
    const command = `leeway decide ${course} --journal FILE --student ${student} >> FILE`;
    const remedy = sayProblem("cli-problem.student-not-in-journal-remedy", { command });
    return failure(...problems, problem("NOBODY_ENROLLED", message, { file: journal }, remedy));
  }
  tellProblems(setting, problems);
  const events = read.value.events.filter((event) => event?.student === student && event.curriculum === of.curriculum);
  return success(inEdition(setting, curriculum.value, { standing, events }));
}

function inEdition(
  { terminal }: Setting,
  curriculum: Curriculum,
  { standing, events }: Omit<PlanSource, "curriculum">,
): PlanSource {
  return { curriculum, standing: changeEdition(curriculum, standing, { at: terminal.now() }).standing, events };
}
