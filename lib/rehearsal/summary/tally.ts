import type { RehearsedCourse } from "../climb/rehearsedCourse.js";
import { OUTCOMES } from "../table/outcome.js";

/** How often each whole number occurred: exact, and the same whatever is counted or added first. */
export type Counts = Map<number, number>;

/** Counts of what became of the students of one quarter. Whole numbers only, so that tallies add up to the same bytes in any order. */
export interface Tally {
  students: number;
  /** Takes, and days since the term began, of those who finished. */
  readonly finishTakes: Counts;
  readonly finishDays: Counts;
  /** Takes of all students, and their minutes at the instrument, whole. */
  takes: number;
  minutes: number;
  readonly drills: readonly DrillTally[];
}
export interface DrillTally {
  /** Students who played it. */
  begun: number;
  /** Takes in it, and days since the term began, of those who completed it. */
  readonly completeTakes: Counts;
  readonly completeDays: Counts;
  readonly rungs: readonly RungTally[];
}
export interface RungTally {
  /** Students who came to it. */
  reached: number;
  /** Stays on it: a student who goes back and comes again has several. */
  stays: number;
  wentBack: number;
  /** Takes by outcome, as in `OUTCOMES`. */
  readonly outcomes: number[];
  /** Takes a student played on it before leaving it upward for the first time. */
  readonly passTakes: Counts;
  /** Students who were on it when the term ended, and those of them who had played `LONG_STAY` takes or more on it. */
  stayed: number;
  stuck: number;
  /** Times it was left upward, and those of them by students whose true chance of a clean take was below `unready`. */
  letOn: number;
  letOnUnready: number;
  /** Stays of students whose true chance was `able` or more when they had played as many takes as the gate looks at, and those of them who had not passed by then. */
  ableStays: number;
  ableHeld: number;
  /** Sum of the true chances of a clean take on arrival, in thousandths. */
  arrivalChances: number;
}

/** Takes on one rung from which on a student who is still there counts as stuck. Our choice: more than two sessions. */
export const LONG_STAY = 30;

export function newTally({ drills }: RehearsedCourse): Tally {
  return emptyTally(drills.map(({ count }) => count));
}

/** An empty tally of the same course. */
export function newTallyLike({ drills }: Tally): Tally {
  return emptyTally(drills.map(({ rungs }) => rungs.length));
}

function emptyTally(rungs: readonly number[]): Tally {
  return {
    students: 0,
    finishTakes: new Map(),
    finishDays: new Map(),
    takes: 0,
    minutes: 0,
    drills: rungs.map((length) => ({
      begun: 0,
      completeTakes: new Map(),
      completeDays: new Map(),
      rungs: Array.from({ length }, newRungTally),
    })),
  };
}

function newRungTally(): RungTally {
  return {
    reached: 0,
    stays: 0,
    wentBack: 0,
    outcomes: OUTCOMES.map(() => 0),
    passTakes: new Map(),
    stayed: 0,
    stuck: 0,
    letOn: 0,
    letOnUnready: 0,
    ableStays: 0,
    ableHeld: 0,
    arrivalChances: 0,
  };
}

export function count(counts: Counts, value: number): void {
  counts.set(value, (counts.get(value) ?? 0) + 1);
}

/** Adds a tally to another of the same course: numbers are added, counts joined, lists taken entry by entry. */
export function addTally<T>(into: T, other: T): T {
  if (typeof into === "number") return (into + (other as number)) as T;
  if (into instanceof Map) {
    for (const [value, times] of other as Counts) into.set(value, (into.get(value) ?? 0) + times);
    return into;
  }
  const target = into as Record<string, unknown>;
  for (const [key, value] of Object.entries(other as Record<string, unknown>))
    target[key] = addTally(target[key], value);
  return into;
}
