import type { CourseReport, Report, StudentReport } from "../schema/index.js";
import { openCourses } from "./courseCounts.js";
import { openDrift } from "./drift.js";
import { type JournalOptions, type ReportedJournal, reportJournal } from "./reportJournal.js";

/** A report while journals are added to it. It keeps a summary of each journal, not its events. */
export interface OpenReport {
  /** Adds a journal. The journals of one student may come in any order among the others, each course once. */
  add(journal: ReportedJournal): void;
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
      const read = reportJournal(journal, options);
      if (read === undefined) return;
      const { student, curriculum } = journal;
      const known = students.get(student) ?? [];
      if (known.some((each) => each.curriculum === curriculum))
        throw new RangeError(`the journal of ${student} in ${curriculum} was added twice`);
      known.push(read.report);
      students.set(student, known);
      courses.add(read.report, read.course);
      for (const take of read.takes) drift.add(take);
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
