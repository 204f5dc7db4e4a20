import {
  type Curriculum,
  changeEdition,
  failure,
  type JournalEvent,
  problemsOf,
  type Result,
  type Standing,
  success,
} from "../../index.js";
import type { Store } from "../../store/index.js";
import { fileCodes } from "../codes.js";
import { openCourse } from "../input/courseFile.js";
import { readJournalFile } from "../input/journalFile.js";
import { type Setting, tellProblems } from "../outcome.js";
import { openEnrolled } from "../store/enrolledJournal.js";

const problem = problemsOf(fileCodes);

/** What a plan is made from, wherever it is kept. */
export interface PlanSource {
  readonly curriculum: Curriculum;
  /** In the edition of that curriculum; nothing is written for it. */
  readonly standing: Standing;
  readonly events: readonly JournalEvent[];
}

/** From a journal and a course in files. What is wrong with single events is told, and the rest counts. */
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
    const message = `${student} is not enrolled in ${of.curriculum} in this journal`;
    return failure(...problems, problem("NOBODY_ENROLLED", message, { file: journal }));
  }
  tellProblems(setting, problems);
  const events = read.value.events.filter((event) => event?.student === student && event.curriculum === of.curriculum);
  return success(inEdition(setting, curriculum.value, { standing, events }));
}

/** From a store; the course is the one kept with the student's edition, unless a file is named. */
export async function sourceInStore(
  setting: Setting,
  store: Store,
  { student, course }: { readonly student: string; readonly course: string | undefined },
): Promise<Result<PlanSource>> {
  const enrolled = await openEnrolled(setting, store, { student, course });
  if (!enrolled.ok) return enrolled;
  const { standing } = enrolled.value.journal;
  const events: JournalEvent[] = [];
  for await (const event of store.events({ student, curriculum: standing.curriculum })) events.push(event);
  return success(inEdition(setting, enrolled.value.course, { standing, events }));
}

function inEdition(
  { terminal }: Setting,
  curriculum: Curriculum,
  { standing, events }: Omit<PlanSource, "curriculum">,
): PlanSource {
  return { curriculum, standing: changeEdition(curriculum, standing, { at: terminal.now() }).standing, events };
}
