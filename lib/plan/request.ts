import type { Curriculum } from "../curriculum/index.js";
import type { Belief, Population } from "../forecast/index.js";
import type { JournalEvent, Standing } from "../schema/index.js";

/** What a plan is made from. */
export interface PlanRequest {
  readonly curriculum: Curriculum;
  readonly standing: Standing;
  /** The student's journal: takes and their days. */
  readonly events: Iterable<JournalEvent>;
  /** ISO 8601 date: "2026-03-02". */
  readonly today: string;
  /** Minutes there are: above 0, up to 600. */
  readonly minutes: number;
  /** Settles what is equally good, and the lots of the outlook. */
  readonly seed: number | string;
  /** What is known of other students; anybody when left out. */
  readonly population?: Population;
  /** Instead of what the journal's takes lead one to believe. */
  readonly belief?: Belief;
  /** Chance of a clean take aimed at in new work, from 0.5 to 0.99; 0.85 when left out. */
  readonly target?: number;
  /** Whether drills take turns, take by take; otherwise one is played after the other. */
  readonly order?: "one by one" | "taking turns";
  readonly deadline?: Deadline;
}

export interface Deadline {
  /** ISO 8601 date after today. */
  readonly on: string;
  /** The drill that must be complete, with all it needs; all in work now when left out. */
  readonly drill?: string;
  /** Minutes of practice a day; those of this plan when left out. */
  readonly minutes?: number;
  /** Days of practice a week, above 0 to 7; 5 when left out (our choice). */
  readonly daysAWeek?: number;
}
