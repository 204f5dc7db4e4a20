import type { Curriculum } from "../curriculum/index.js";
import { drawnLevel, playedLevel } from "./climb/level.js";
import { POLICIES, type PolicyName } from "./climb/policy.js";
import { type RehearsedCourse, rehearsedCourse } from "./climb/rehearsedCourse.js";
import { type TermEnd, termPlayer } from "./climb/term.js";
import { BUILT_IN_STUDENTS, type Students } from "./students/population.js";
import { addTally, newTally, type Tally } from "./summary/tally.js";
import { chancesOf, chanceTable, type RungChances, type RungRow } from "./table/chanceTable.js";
import { playRung, type RungPlays } from "./table/plays.js";

/** What a rehearsal is asked for; what is left out is as `REHEARSAL_DEFAULTS` has it. */
export interface RehearsalOptions {
  readonly seed?: string;
  readonly students?: Students;
  /** Only these drills; those they need count as complete. */
  readonly drills?: readonly string[];
  readonly weeks?: number;
  /** Minutes of each session; as many takes as the students' traits say when left out. */
  readonly minutes?: number;
  readonly policy?: PolicyName;
  /** Standard error of the share of clean takes at which a rung has been played enough for the table, and the most takes it is played. */
  readonly error?: number;
  readonly plays?: number;
}

type Settled = Required<Omit<RehearsalOptions, "drills" | "minutes">> & Pick<RehearsalOptions, "minutes">;

/** A term of twelve weeks, our choice; errors of the table: see the README of this room. */
const REHEARSAL_DEFAULTS: Settled = {
  seed: "1",
  students: BUILT_IN_STUDENTS,
  weeks: 12,
  policy: "current",
  error: 0.04,
  plays: 160,
};

/** From which true chance of a clean take on a student is ready for the next rung, and below which not: our choice, where the gate names none itself. */
export const ABLE = 0.85;
export const UNREADY = 0.5;

/** A course ready for its students: every rung has been played. */
export interface Rehearsal {
  readonly course: RehearsedCourse;
  /** What the table is made from, drill by drill and rung by rung, as plain data. */
  readonly rows: readonly (readonly RungRow[])[];
  readonly table: readonly (readonly RungChances[])[];
  readonly options: Settled;
}

/** Plays of a rung that are known from before, by the key of what they depend on; `undefined`: play it. */
export type KnownPlays = (key: string) => RungPlays | undefined;

/**
 * The rungs that have to be played for a rehearsal, each score once, with the key under which their plays can be kept. No drill, no rung.
 *
 * @example
 * rungsToPlay(course, { drills: [] }).length // 0
 */
export function rungsToPlay(
  curriculum: Curriculum,
  options: RehearsalOptions = {},
): readonly { readonly key: string; readonly play: () => RungPlays }[] {
  const settled = { ...REHEARSAL_DEFAULTS, ...options };
  const tasks = new Map<string, () => RungPlays>();
  for (const { rungs } of rehearsedCourse(curriculum, options.drills).drills)
    for (const { key, score } of rungs) tasks.set(playsKey(key, settled), () => playRung(score, playingTerms(settled)));
  return [...tasks].map(([key, play]) => ({ key, play }));
}

function playsKey(score: string, { students, error, plays }: Settled): string {
  return JSON.stringify([PLAYS_VERSION, score, students.skewed, students.level, error, plays]);
}

/** Raised whenever the same score and students would be played otherwise. */
const PLAYS_VERSION = 2;

/** The table is played under a seed of its own: another seed of a rehearsal means other students and no other table. */
function playingTerms({ students, error, plays }: Settled): Parameters<typeof playRung>[1] {
  return { students, seed: "table", error, most: plays };
}

/**
 * Makes a course ready: plays every rung that is not known, and makes the table of chances.
 *
 * Takes some seconds of processor time for each dozen rungs. Drills longer than `MOST_RUNGS` are rehearsed up to there.
 *
 * @example
 * const ready = prepareRehearsal(course, { drills: ["steady"] });
 * ready.table[0].length // 8
 */
export function prepareRehearsal(
  curriculum: Curriculum,
  options: RehearsalOptions = {},
  known: KnownPlays = () => undefined,
): Rehearsal {
  const settled = { ...REHEARSAL_DEFAULTS, ...options };
  const course = rehearsedCourse(curriculum, options.drills);
  const played = new Map<string, RungPlays>();
  const all = course.drills.flatMap(({ rungs }) =>
    rungs.map(({ key, score, lay }) => {
      const full = playsKey(key, settled);
      const plays = played.get(full) ?? known(full) ?? playRung(score, playingTerms(settled));
      played.set(full, plays);
      return { plays, lay };
    }),
  );
  const fitted = chanceTable(all);
  const starts = course.drills.map((_, d) => course.drills.slice(0, d).reduce((sum, { count }) => sum + count, 0));
  const rows = course.drills.map(({ count }, d) => fitted.slice(starts[d]!, starts[d]! + count));
  return { course, rows, table: rows.map((drill) => drill.map(chancesOf)), options: settled };
}

/**
 * A course made ready elsewhere, from its rows: another thread, which is given them, plays nothing. Throws `RangeError` when rows and rungs are not as many.
 *
 * @example
 * const ready = prepareRehearsal(course, { drills: [] });
 * openRehearsal(course, ready.rows, { drills: [] }).rows.length // 0
 */
export function openRehearsal(
  curriculum: Curriculum,
  rows: Rehearsal["rows"],
  options: RehearsalOptions = {},
): Rehearsal {
  const course = rehearsedCourse(curriculum, options.drills);
  if (course.drills.length !== rows.length || course.drills.some(({ count }, d) => count !== rows[d]!.length))
    throw new RangeError("the rows of a rehearsal are one for each rung of its course");
  const table = rows.map((drill) => drill.map(chancesOf));
  return { course, rows, table, options: { ...REHEARSAL_DEFAULTS, ...options } };
}

/** Which students of a rehearsal are meant: `count` from number `from` on. */
export interface StudentRange {
  readonly from: number;
  readonly count: number;
}

/**
 * Terms of some students, one by one in the order of their numbers. `tallies` count them, one tally for each quarter of the population.
 *
 * @example
 * const ready = prepareRehearsal(course, { drills: [] });
 * [...termsOf(ready, { from: 0, count: 3 })].length // 3
 */
export function* termsOf(
  { course, table, options }: Rehearsal,
  { from, count }: StudentRange,
  {
    played = false,
    tallies = newTallies(course),
  }: { readonly played?: boolean; readonly tallies?: readonly Tally[] } = {},
): Generator<TermEnd> {
  const level = played ? playedLevel(course) : drawnLevel(course, table);
  const play = termPlayer({
    ...{ course, table, level },
    ...{ students: options.students, policy: POLICIES[options.policy], seed: options.seed },
    ...{ days: Math.round(7 * options.weeks), minutes: options.minutes, able: ABLE, unready: UNREADY },
  });
  for (let number = from; number < from + count; number++) yield play(number, tallies);
}

/** One tally for each quarter of the population, the steadiest first. */
export function newTallies(course: RehearsedCourse): readonly Tally[] {
  return [0, 1, 2, 3].map(() => newTally(course));
}

/**
 * Tallies of some students of a rehearsal, drawn from the table or played in full: one for each quarter of the population, the steadiest first.
 *
 * @example
 * const ready = prepareRehearsal(course, { drills: [] });
 * rehearse(ready, { from: 0, count: 3 }).length // 4
 */
export function rehearse(
  rehearsal: Rehearsal,
  range: StudentRange,
  level: "drawn" | "played" = "drawn",
): readonly Tally[] {
  const tallies = newTallies(rehearsal.course);
  for (const _ of termsOf(rehearsal, range, { played: level === "played", tallies }));
  return tallies;
}

/**
 * Tallies of two parts of a rehearsal as one; neither is changed. Any order and grouping gives the same.
 *
 * @example
 * const ready = prepareRehearsal(course, { drills: [] });
 * const part = rehearse(ready, { from: 0, count: 3 });
 * joined(part, part).reduce((sum, { students }) => sum + students, 0) // 6
 */
export function joined(one: readonly Tally[], other: readonly Tally[]): readonly Tally[] {
  return structuredClone(one).map((tally, quarter) => addTally(tally, other[quarter]!));
}
