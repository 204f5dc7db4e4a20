import type { RehearsalKindName } from "../../schema/index.js";
import type { RehearsedCourse } from "../climb/rehearsedCourse.js";

/** The kinds of students a report tells apart: all, and the quarters of the population, the steadiest first. */
export const KINDS: readonly RehearsalKindName[] = [
  "all",
  "steadiest quarter",
  "second quarter",
  "third quarter",
  "least steady quarter",
];

/** What a report says of a course besides what became of its students: as plain data, so that parts can be joined without the course. */
export interface ReportFrame {
  readonly curriculum: string;
  readonly title: string;
  readonly edition: string;
  readonly drills: readonly {
    readonly drill: string;
    readonly title?: string;
    readonly rungs: readonly string[];
  }[];
}

/**
 * What a report says of a course besides what became of its students.
 *
 * @example
 * frameOf(prepareRehearsal(course, { drills: [] }).course).drills.length // 0
 */
export function frameOf({ course, drills }: RehearsedCourse): ReportFrame {
  return {
    curriculum: course.name,
    title: course.title,
    edition: course.edition,
    drills: drills.map(({ drill: { name, title }, rungs }) => ({
      drill: name,
      ...(title === undefined ? {} : { title }),
      rungs: rungs.map((rung) => rung.name),
    })),
  };
}
