import type { Curriculum } from "../curriculum/index.js";
import type { Belief, Population } from "../forecast/index.js";
import type { JournalEvent, Standing } from "../schema/index.js";

/** Request for a plan. */
export interface PlanRequest {
  readonly curriculum: Curriculum;
  readonly standing: Standing;
  /** The student's journal: takes and their days. */
  readonly events: Iterable<JournalEvent>;
  /** ISO 8601 date: "2026-03-02". */
  readonly today: string;
  /** Minutes there are: above 0, up to 600. */
  readonly minutes: number;
  /** Seed of the random choices: ties between drills, order of turns, runs of the outlook. */
  readonly seed: number | string;
  /** Prior from other students (`populationOf`); the built-in population when left out. */
  readonly population?: Population;
  /** Posterior of the student, instead of the one from the journal's takes. */
  readonly belief?: Belief;
  /** Chance of a clean take aimed at in new work, from 0.5 to 0.99; 0.85 when left out. */
  readonly target?: number;
  /** Interleaved ("taking turns", take by take) or blocked practice ("one by one"); blocked when left out. */
  readonly order?: "one by one" | "taking turns";
  readonly deadline?: Deadline;
  /** The student's instrument, for how soon a short rest comes; those the drill is for when left out. */
  readonly instrument?: string;
}

/** A day by which drills are to be complete. */
export interface Deadline {
  /** ISO 8601 date after today. */
  readonly on: string;
  /** The drill that must be complete, with all it needs; all in work now when left out. */
  readonly drill?: string;
  /** Minutes of practice a day; those of this plan when left out. */
  readonly minutes?: number;
  /** Days of practice a week, above 0 to 7; 5 when left out (our choice). */
  readonly daysAWeek?: number;
  /** How the student practises until then: by plans, obeyed or asked anew (when left out), or on the rung they are on alone. */
  readonly practises?: "the plan" | "the current rung";
}
