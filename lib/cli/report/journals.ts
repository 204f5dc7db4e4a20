import { nearestName, type Problem, problemsOf } from "../../index.js";
import type { JournalEntry, Store } from "../../store/index.js";
import { fileCodes } from "../codes.js";
import { openJournal } from "../store/enrolledJournal.js";

const problem = problemsOf(fileCodes);

export interface FoundJournals {
  /** `undefined` when there is nothing to report. */
  readonly entries: AsyncIterable<JournalEntry> | undefined;
  readonly problems: readonly Problem[];
}

/** The journals of the named students, or of all, in all courses or in one. Unknown students are reported. */
export async function journalsFor(
  store: Store,
  students: readonly string[],
  course: string | undefined,
): Promise<FoundJournals> {
  if (students.length === 0) {
    const missing = course === undefined ? undefined : await missingCourse(store, course);
    return missing === undefined
      ? { entries: inCourse(store.journals(), course), problems: [] }
      : { entries: undefined, problems: [missing] };
  }
  const problems: Problem[] = [];
  const found: string[] = [];
  for (const student of new Set(students)) {
    const journal = await openJournal(store, student, course);
    // A student in several courses is not ambiguous here: all of them are reported.
    const trouble = journal.ok ? [] : journal.problems.filter(({ code }) => code !== "COURSE_NOT_CHOSEN");
    problems.push(...trouble);
    if (trouble.length === 0) found.push(student);
  }
  return { entries: found.length === 0 ? undefined : ofStudents(store, found, course), problems };
}

async function* ofStudents(
  store: Store,
  students: readonly string[],
  course: string | undefined,
): AsyncIterable<JournalEntry> {
  for (const student of students) yield* inCourse(store.journals({ student }), course);
}

async function* inCourse(
  entries: AsyncIterable<JournalEntry>,
  course: string | undefined,
): AsyncIterable<JournalEntry> {
  for await (const entry of entries) if (course === undefined || entry.curriculum === course) yield entry;
}

async function missingCourse(store: Store, course: string): Promise<Problem | undefined> {
  const names = new Set<string>();
  for await (const { curriculum } of store.journals()) {
    if (curriculum === course) return undefined;
    names.add(curriculum);
  }
  const nearest = nearestName(course, [...names]);
  const message = `nobody in ${store.place} is enrolled in ${course}`;
  return problem("NOBODY_IN_COURSE", message, {}, nearest && `write ${nearest}`);
}
