import type { ClassRow, InvitationRow, KeyRow, MemberRow, PersonRow } from "./schoolRows.js";

/**
 * The tables, the same in every database. The primary key of every table except those of the store, its courses and its classes begins with the student, so
 * that the rows of one student are stored together and can be distributed by that name. Names are in `keyText` form; `body`, `head`, `latest` and
 * `files` hold JSON.
 */
export interface Tables {
  readonly leeway_store: { readonly name: string; readonly value: string };
  readonly leeway_journals: JournalRow;
  readonly leeway_events: EventRow;
  readonly leeway_drills: DrillRow;
  readonly leeway_rungs: RungRow;
  readonly leeway_summaries: SummaryRow;
  readonly leeway_learnt: LearntRow;
  readonly leeway_set_aside: SetAsideRow;
  readonly leeway_courses: CourseRow;
  readonly leeway_people: PersonRow;
  readonly leeway_classes: ClassRow;
  readonly leeway_members: MemberRow;
  readonly leeway_invitations: InvitationRow;
  readonly leeway_keys: KeyRow;
}

/** The tables that hold anything about a student, those that refer to others first. */
export const STUDENT_TABLES = [
  "leeway_keys",
  "leeway_invitations",
  "leeway_members",
  "leeway_people",
  "leeway_set_aside",
  "leeway_learnt",
  "leeway_summaries",
  "leeway_rungs",
  "leeway_drills",
  "leeway_events",
  "leeway_journals",
] as const;

/** A journal: its counts, its last event, and the standing without the drills. */
export interface JournalRow {
  readonly student: string;
  readonly curriculum: string;
  readonly revision: number;
  readonly events: number;
  readonly last_turn: number;
  readonly last_at: string;
  readonly last_id: string;
  /** Edition in force, latest effective event, number of effective events; null while nobody is enrolled. */
  readonly edition: string | null;
  readonly latest: string | null;
  readonly counted: number | null;
}

export interface EventRow {
  readonly student: string;
  readonly curriculum: string;
  readonly turn: number;
  /** Digest of the body: distinguishes events with the same turn, and shows later changes. */
  readonly digest: string;
  readonly id: string;
  /** The event as canonical JSON. */
  readonly body: string;
}

/** The standing in one drill but for its rungs. */
export interface DrillRow {
  readonly student: string;
  readonly curriculum: string;
  /** Index in the drills of the standing, from 0. */
  readonly place: number;
  readonly drill: string;
  readonly head: string;
}

/**
 * The standing on one rung (`rungRows.ts`): number 0 has everything but the pages of its takes that are full, which have the numbers from 1. So a take writes no more where many
 * were played before.
 */
export interface RungRow {
  readonly student: string;
  readonly curriculum: string;
  /** Index of the drill. */
  readonly place: number;
  /** Index in the rungs of the drill, from 0. */
  readonly rung: number;
  readonly number: number;
  readonly body: string;
}

/** A part of what reports need of a journal, as canonical JSON: what is of the whole, of one drill, or of one week (`summaryParts.ts`). */
export interface SummaryRow {
  readonly student: string;
  readonly curriculum: string;
  readonly part: string;
  readonly body: string;
}

/** What was learnt of a student: `body` rests on so many takes, which `basis` names. */
export interface LearntRow {
  readonly student: string;
  readonly curriculum: string;
  readonly basis: string;
  readonly takes: number;
  readonly body: string;
}

/** An event that could not be read when the journal was repaired. */
export interface SetAsideRow {
  readonly student: string;
  readonly curriculum: string;
  readonly digest: string;
  readonly body: string;
}

export interface CourseRow {
  readonly curriculum: string;
  readonly edition: string;
  /** Counts the texts kept for this edition, from 1. */
  readonly number: number;
  readonly digest: string;
  readonly file: string;
  readonly text: string;
  readonly files: string;
}

/** All that appending some events writes, worked out before anything is asked of the database. */
export interface JournalWrite {
  /** The row it rests on; none when the journal is to be begun. */
  readonly before: JournalRow | undefined;
  readonly after: JournalRow;
  readonly events: readonly EventRow[];
  /** The drills that the events name, the rungs that changed, and what changed of the summary. */
  readonly drills: readonly DrillRow[];
  readonly rungs: readonly RungRow[];
  readonly summary: readonly SummaryRow[];
}
