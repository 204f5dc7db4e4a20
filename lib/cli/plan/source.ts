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
    const message = `${student} is not enrolled in ${of.curriculum} in this journal`;
    return failure(...problems, problem("NOBODY_ENROLLED", message, { file: journal }));
  }
  tellProblems(setting, problems);
  const events = read.value.events.filter((event) => event?.student === student && event.curriculum === of.curriculum);
  return success(inEdition(setting, curriculum.value, { standing, events }));
}

/** From a store. The course is the stored one of the student's edition, unless a file is named. */
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
