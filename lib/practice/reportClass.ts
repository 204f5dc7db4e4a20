import { openReport } from "../report/index.js";
import type { Report } from "../schema/index.js";
import type { Store } from "../store/index.js";
import type { CourseFinder } from "./keptCourses.js";
import { addSummaries, openEditions } from "./summarised.js";

export interface ReportClassOptions {
  /** The moment reported, RFC 3339. */
  readonly at: string;
  readonly curriculum: string;
  readonly students: readonly string[];
  /** Editions of the course, such as `keptCourses(store).find`. Without one, rungs have no numbers, and nobody can be called stuck. */
  readonly courseOf?: CourseFinder;
}

/**
 * Who is where, who is stuck and on what, and how they drift and land, of these students in one course, from what the store keeps beside their journals: in SQLite and PostgreSQL the time does
 * not depend on how much they have played. Who is not enrolled in the course is left out; nobody gives an empty report. Rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * (await reportClass(store, { curriculum: course.name, students: ["tern"], at: "2026-03-30T18:00:00Z" })).students.length // 1
 */
export async function reportClass(
  store: Store,
  { at, curriculum, students, courseOf }: ReportClassOptions,
): Promise<Report> {
  const report = openReport({ at });
  await addSummaries(report, store, { curriculum, students, editions: openEditions(courseOf) });
  return report.close();
}
