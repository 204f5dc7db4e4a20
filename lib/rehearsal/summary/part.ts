import type { TermEnd } from "../climb/term.js";
import { newTallies, type Rehearsal, type StudentRange, termsOf } from "../rehearse.js";
import { addPair, newPaired, type Paired } from "./paired.js";
import { addTally, type Tally } from "./tally.js";

/** What some students made of one or more courses, of which each student went through all: sums that add up to the same in any order. */
export interface RehearsedPart {
  readonly courses: readonly PartOfCourse[];
  /** The first course beside each of the others. */
  readonly paired: readonly Paired[];
}
export interface PartOfCourse {
  /** One for each quarter of the population, the steadiest first. */
  readonly tallies: readonly Tally[];
  /** The first hundred students of the rehearsal, in the order of their numbers. */
  readonly climbs: readonly StudentClimb[];
}
export interface StudentClimb {
  readonly student: number;
  readonly quarter: number;
  /** Rungs left behind at the end of each week, of all drills. */
  readonly weekly: readonly number[];
}

/** Students whose climb is kept, by their numbers: as many as a picture can tell apart, our choice. */
const CLIMBS = 100;

/**
 * Sends some students through each of the courses, with the same luck in all of them.
 *
 * @param rehearsals the first is the one that others are compared with; at least one
 * @example
 * rehearsePart([prepareRehearsal(course, { drills: [] })], { from: 0, count: 3 }).courses.length // 1
 */
export function rehearsePart(
  rehearsals: readonly Rehearsal[],
  range: StudentRange,
  options: { readonly played?: boolean } = {},
): RehearsedPart {
  const courses = rehearsals.map(({ course }) => ({ tallies: newTallies(course), climbs: [] as StudentClimb[] }));
  const paired = rehearsals.slice(1).map(newPaired);
  const terms = rehearsals.map((each, i) => termsOf(each, range, { ...options, tallies: courses[i]!.tallies }));
  for (let number = range.from; number < range.from + range.count; number++) {
    const ends = terms.map((each): TermEnd => each.next().value as TermEnd);
    ends.forEach(({ student, weekly }, i) => {
      if (number < CLIMBS) courses[i]!.climbs.push({ student: number, quarter: student.quarter, weekly });
      if (i > 0) addPair(paired[i - 1]!, ends[0]!, ends[i]!, Math.round(7 * rehearsals[i]!.options.weeks));
    });
  }
  return { courses, paired };
}

/**
 * Parts of one rehearsal as one; none of them is changed. Any order and grouping gives the same.
 *
 * @param parts at least one
 * @example
 * const part = rehearsePart([prepareRehearsal(course, { drills: [] })], { from: 0, count: 3 });
 * joinParts([part, part]).courses[0].tallies.reduce((sum, { students }) => sum + students, 0) // 6
 */
export function joinParts(parts: readonly RehearsedPart[]): RehearsedPart {
  const [first, ...others] = structuredClone(parts) as [RehearsedPart, ...RehearsedPart[]];
  for (const other of others) {
    first.courses.forEach((course, i) => {
      course.tallies.forEach((tally, quarter) => void addTally(tally, other.courses[i]!.tallies[quarter]!));
      (course.climbs as StudentClimb[]).push(...other.courses[i]!.climbs);
    });
    first.paired.forEach((each, i) => void addTally(each, other.paired[i]!));
  }
  for (const { climbs } of first.courses) (climbs as StudentClimb[]).sort((a, b) => a.student - b.student);
  return first;
}

/** A part as JSON: each count as pairs of value and times, the values ascending. The same part gives the same text. */
export function partText(part: RehearsedPart): string {
  return JSON.stringify(part, (_, value: unknown) =>
    value instanceof Map ? { counts: [...(value as Map<number, number>)].sort(([a], [b]) => a - b) } : value,
  );
}

/** The part that a text of `partText` stands for. The text must be one. */
export function partOf(text: string): RehearsedPart {
  return JSON.parse(text, (_, value: unknown) =>
    value !== null && typeof value === "object" && "counts" in value
      ? new Map((value as { counts: [number, number][] }).counts)
      : value,
  ) as RehearsedPart;
}
