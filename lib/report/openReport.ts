import type { CourseReport, Report, StudentReport } from "../schema/index.js";
import { openCourses } from "./courseCounts.js";
import { openDrift } from "./drift.js";
import {
  type JournalOptions,
  type ReadOut,
  type ReportedJournal,
  reportJournal,
  reportSummary,
  type SummarisedJournal,
} from "./reportJournal.js";

/** A report while journals are added to it. It keeps a summary of each journal, not its events. */
export interface OpenReport {
  /**
   * Adds a journal, or what a store keeps of it, which is of all its events: with `since` or `asOf` only journals may be added (`RangeError`). The journals of one student may come in any
   * order among the others, each course once.
   */
  add(journal: ReportedJournal | SummarisedJournal): void;
  close(): Report;
}

/**
 * Begins a report of any number of students: where they are, who is stuck and on what, and drift by length of silence over weeks. The order of
 * journals and of their events has no effect. Throws `RangeError` when a journal of the same student and course is added twice.
 *
 * @example
 * const report = openReport({ at: "2026-03-30T18:00:00Z" });
 * report.add({ student: "tern", curriculum: course.name, events, courseOf: () => course });
 * report.close().drift
 */
export function openReport(options: JournalOptions): OpenReport {
  const students = new Map<string, CourseReport[]>();
  const courses = openCourses();
  const drift = openDrift();
  return {
    add(journal) {
      const read = "summary" in journal ? bySummary(journal, options) : reportJournal(journal, options);
      if (read === undefined) return;
      const { student, curriculum } = journal;
      const known = students.get(student) ?? [];
      if (known.some((each) => each.curriculum === curriculum))
        throw new RangeError(`the journal of ${student} in ${curriculum} was added twice`);
      known.push(read.report);
      students.set(student, known);
      courses.add(read.report, read.course);
      drift.add(read.drift);
    },
    close: () => ({
      version: 2,
      at: options.at,
      ...(options.since === undefined ? {} : { since: options.since }),
      students: [...students].sort(([a], [b]) => byPoints(a, b)).map(studentReport),
      courses: courses.close(),
      drift: drift.close(),
    }),
  };
}

function bySummary(journal: SummarisedJournal, options: JournalOptions): ReadOut {
  if (options.since !== undefined || options.asOf !== undefined)
    throw new RangeError("a summary is of all events of a journal: give its events for a part of them");
  return reportSummary(journal, options);
}

function studentReport([student, courses]: readonly [string, CourseReport[]]): StudentReport {
  return { student, courses: courses.sort((a, b) => byPoints(a.curriculum, b.curriculum)) };
}

/** Order by code points, as stores list journals. */
function byPoints(a: string, b: string): number {
  const [left, right] = [[...a], [...b]];
  const first = left.findIndex((letter, i) => letter !== right[i]);
  if (first < 0) return left.length - right.length;
  return right[first] === undefined ? 1 : left[first]!.codePointAt(0)! - right[first]!.codePointAt(0)!;
}
