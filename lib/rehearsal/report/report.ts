import type { RehearsalKind, RehearsalKindName, RehearsalReport, RehearsalResults } from "../../schema/index.js";
import { ABLE, type Rehearsal, UNREADY } from "../rehearse.js";
import type { PartOfCourse, RehearsedPart } from "../summary/part.js";
import { quantilesOf } from "../summary/quantiles.js";
import { addTally, LONG_STAY, newTallyLike, type Tally } from "../summary/tally.js";
import { UNCLEAR } from "../table/outcome.js";
import { findingsOf } from "./findings.js";
import { KINDS, type ReportFrame } from "./frame.js";
import { drillReport } from "./rungReport.js";

/** How students were rehearsed, as a report says it. */
export type ReportTerms = Pick<RehearsalReport, "population" | "seed" | "weeks" | "minutes" | "policy" | "level">;

/**
 * How a rehearsal was made, as its report says it.
 *
 * @example
 * reportTerms(prepareRehearsal(course, { drills: [] }), "drawn").weeks // 12
 */
export function reportTerms({ options }: Rehearsal, level: RehearsalReport["level"]): ReportTerms {
  const { students, seed, weeks, minutes, policy } = options;
  return { population: students.name, seed, weeks, ...(minutes === undefined ? {} : { minutes }), policy, level };
}

/**
 * The document of a rehearsal: what became of the students of a part. The same part gives the same document, however it was joined.
 *
 * @param part its first course is the one that is reported
 * @example
 * const ready = prepareRehearsal(course, { drills: [] });
 * const part = rehearsePart([ready], { from: 0, count: 3 });
 * rehearsalReport(part, frameOf(ready.course), reportTerms(ready, "drawn")).students // 3
 */
export function rehearsalReport(part: RehearsedPart, frame: ReportFrame, terms: ReportTerms): RehearsalReport {
  const course = part.courses[0]!;
  return {
    version: 1,
    curriculum: frame.curriculum,
    title: frame.title,
    ...terms,
    students: course.tallies.reduce((sum, { students }) => sum + students, 0),
    able: ABLE,
    unready: UNREADY,
    longStay: LONG_STAY,
    results: resultsOf(course, frame),
    comparisons: [],
    climbs: course.climbs.map(({ student, quarter, weekly }) => ({
      student,
      kind: KINDS[quarter + 1]!,
      weekly: [...weekly],
    })),
  };
}

/** What became of the students in one course of a part. */
export function resultsOf({ tallies }: PartOfCourse, frame: ReportFrame): RehearsalResults {
  const all = tallies.reduce((sum, tally) => addTally(sum, tally), newTallyLike(tallies[0]!));
  const kinds = [all, ...tallies];
  const drills = frame.drills.map((drill, d) => drillReport(drill, { kinds, d }));
  return {
    edition: frame.edition,
    kinds: kinds.map((tally, k) => kindReport(tally, KINDS[k]!, frame)),
    drills,
    findings: findingsOf(drills, all),
  };
}

function kindReport(tally: Tally, kind: RehearsalKindName, frame: ReportFrame): RehearsalKind {
  const rungs = tally.drills.flatMap((drill) => drill.rungs);
  const sum = (of: (rung: (typeof rungs)[number]) => number): number =>
    rungs.reduce((total, rung) => total + of(rung), 0);
  return {
    kind,
    students: tally.students,
    finished: [...tally.finishDays.values()].reduce((total, times) => total + times, 0),
    takes: quantilesOf(tally.finishTakes, tally.students),
    weeks: quantilesOf(tally.finishDays, tally.students, DAYS_A_WEEK),
    takesPlayed: tally.takes,
    minutes: tally.minutes,
    unclear: sum(({ outcomes }) => outcomes[UNCLEAR]!),
    letOnUnready: { times: sum(({ letOnUnready }) => letOnUnready), of: sum(({ letOn }) => letOn) },
    heldAble: { times: sum(({ ableHeld }) => ableHeld), of: sum(({ ableStays }) => ableStays) },
    drills: tally.drills.map((drill, d) => ({
      drill: frame.drills[d]!.drill,
      begun: drill.begun,
      completed: [...drill.completeTakes.values()].reduce((total, times) => total + times, 0),
      takes: quantilesOf(drill.completeTakes, drill.begun),
      weeks: quantilesOf(drill.completeDays, tally.students, DAYS_A_WEEK),
    })),
  };
}

const DAYS_A_WEEK = 7;
