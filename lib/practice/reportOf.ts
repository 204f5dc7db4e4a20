import { failure, nearestName, success } from "../base/index.js";
import type { Curriculum } from "../curriculum/index.js";
import { eventsBy, type JournalOptions, type OpenReport, openReport } from "../report/index.js";
import type { JournalEvent, Report } from "../schema/index.js";
import { eventsOf, type JournalEntry, type Store } from "../store/index.js";
import { practiceProblem } from "./codes.js";
import { findJournal } from "./findJournal.js";
import type { CourseFinder } from "./keptCourses.js";
import type { Problem, Result } from "./problem.js";
import { sayProblem } from "./say.js";
import { addSummaries, type Editions, openEditions } from "./summarised.js";

export interface ReportOfOptions extends JournalOptions {
  /** Names of students; everybody when left out or empty. */
  readonly students?: readonly string[];
  /** Name of a course; all when left out. */
  readonly curriculum?: string;
  /** Editions of courses, such as `keptCourses(store).find`. Without one, rungs have no numbers, and nobody can be called stuck. */
  readonly courseOf?: CourseFinder;
}

export interface Reported {
  readonly report: Report;
  /** The journals behind the report of a single student, for a picture of the climb; empty for several. */
  readonly climbs: readonly { readonly course: Curriculum; readonly events: readonly JournalEvent[] }[];
  /** Students who were named and are not there; the others are reported. */
  readonly problems: readonly Problem[];
  /** Editions in force that `courseOf` did not find, each once. */
  readonly missing: readonly { readonly curriculum: string; readonly edition: string }[];
}

/**
 * Who is where, who is stuck and on what, and how they drift, of the students named or of everybody: from what the store keeps beside their journals; for a part of the
 * time, and for a single student, from the journals, read one after the other. A store without journals gives an empty report.
 *
 * Problems: NOBODY_IN_COURSE, and those of `findJournal` when nobody of those named is there. Rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * const reported = await reportOf(store, { at: "2026-03-30T18:00:00Z" });
 */
export async function reportOf(
  store: Store,
  { students = [], curriculum, courseOf, ...options }: ReportOfOptions,
): Promise<Result<Reported>> {
  const found =
    students.length === 0
      ? await inCourse(store, curriculum)
      : await namedIn(store, [...new Set(students)], curriculum);
  if (!found.ok) return found;
  const { entries, problems } = found.value;
  const report = openReport(options);
  if (options.since === undefined && options.asOf === undefined && students.length !== 1) {
    const editions = openEditions(courseOf);
    for await (const page of inPages(entries)) await addEntries(report, store, { entries: page, editions });
    return success({ report: report.close(), climbs: [], problems, missing: editions.missing });
  }
  const climbs: { course: Curriculum; events: readonly JournalEvent[] }[] = [];
  const missing = new Map<string, Reported["missing"][number]>();
  for await (const entry of entries) {
    const events = await eventsOf(store, entry);
    // The edition in force at the moment reported is not known before the journal is read.
    const editions = new Map<string, Curriculum>();
    for (const edition of editionsIn(events)) {
      const course = await courseOf?.(entry.curriculum, edition);
      if (course !== undefined) editions.set(edition, course);
    }
    let used: Curriculum | undefined;
    const find = (edition: string): Curriculum | undefined => {
      used = editions.get(edition);
      if (used === undefined) missing.set(`${entry.curriculum} ${edition}`, { curriculum: entry.curriculum, edition });
      return used;
    };
    report.add({ student: entry.student, curriculum: entry.curriculum, events, courseOf: find });
    if (students.length === 1 && used !== undefined) climbs.push({ course: used, events: eventsBy(events, options) });
  }
  return success({ report: report.close(), climbs, problems, missing: [...missing.values()] });
}

/** Journals that are reported by one question to the store: our choice. */
const PAGE = 500;

async function* inPages(entries: AsyncIterable<JournalEntry>): AsyncIterable<readonly JournalEntry[]> {
  let page: JournalEntry[] = [];
  for await (const entry of entries) {
    page.push(entry);
    if (page.length < PAGE) continue;
    yield page;
    page = [];
  }
  yield page;
}

async function addEntries(
  report: OpenReport,
  store: Store,
  { entries, editions }: { readonly entries: readonly JournalEntry[]; readonly editions: Editions },
): Promise<void> {
  for (const curriculum of new Set(entries.map((entry) => entry.curriculum))) {
    const of = entries.filter((entry) => entry.curriculum === curriculum);
    const students = of.map(({ student }) => student);
    const there = await addSummaries(report, store, { curriculum, students, editions });
    // Of a journal whose enrolment has not arrived there is nothing but its events.
    for (const { student } of of)
      if (!there.has(student))
        report.add({ student, curriculum, events: await eventsOf(store, { student, curriculum }) });
  }
}

function editionsIn(events: readonly JournalEvent[]): ReadonlySet<string> {
  return new Set(
    events.flatMap((event) =>
      event.kind === "enrolled" ? [event.edition] : event.kind === "edition changed" ? [event.to] : [],
    ),
  );
}

interface Found {
  readonly entries: AsyncIterable<JournalEntry>;
  readonly problems: readonly Problem[];
}

/** Everybody, or everybody in a course. */
async function inCourse(store: Store, curriculum: string | undefined): Promise<Result<Found>> {
  const names = new Set<string>();
  if (curriculum !== undefined) for await (const entry of store.journals()) names.add(entry.curriculum);
  if (curriculum === undefined || names.has(curriculum))
    return success({ entries: journalsOf(store, [undefined], curriculum), problems: [] });
  const nearest = nearestName(curriculum, [...names]);
  const message = sayProblem("practice-problem.nobody-in-course", { place: store.place, course: curriculum });
  const remedy =
    nearest === undefined ? undefined : sayProblem("practice-problem.nobody-in-course-remedy", { nearest });
  return failure(practiceProblem("NOBODY_IN_COURSE", message, {}, remedy));
}

async function namedIn(
  store: Store,
  students: readonly string[],
  curriculum: string | undefined,
): Promise<Result<Found>> {
  const problems: Problem[] = [];
  const there: string[] = [];
  for (const student of students) {
    const journal = await findJournal(store, student, curriculum);
    // Being in several courses is no question here: all of them are reported.
    const trouble = journal.ok ? [] : journal.problems.filter(({ code }) => code !== "COURSE_NOT_CHOSEN");
    problems.push(...trouble);
    if (trouble.length === 0) there.push(student);
  }
  if (there.length === 0) return failure(...problems);
  return success({ entries: journalsOf(store, there, curriculum), problems });
}

async function* journalsOf(
  store: Store,
  students: readonly (string | undefined)[],
  curriculum: string | undefined,
): AsyncIterable<JournalEntry> {
  for (const student of students)
    for await (const entry of store.journals(student === undefined ? {} : { student }))
      if (curriculum === undefined || entry.curriculum === curriculum) yield entry;
}
