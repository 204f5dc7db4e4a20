// Generated from schemas/ by `npm run types`; change the schema instead.

import type { NotesLeftOut } from "./event.js";
/**
 * Where a student is in a course, worked out from the journal. The same events give the same standing, byte for byte in canonical JSON (RFC 8785), in whatever order they arrived.
 */
export interface Standing {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * Whose standing this is: a pseudonym is enough.
   */
  readonly student: string;
  /**
   * Name of the course.
   */
  readonly curriculum: string;
  /**
   * Edition of the course in force for this student.
   */
  readonly edition: string;
  readonly latest: LatestEvent;
  /**
   * Events that had an effect, each counted once. Range: at least 1.
   */
  readonly events: number;
  /**
   * Every drill the journal mentions, in the order of its first event.
   */
  readonly drills: readonly DrillStanding[];
}
/**
 * The last event that had an effect, in the journal's order.
 */
export interface LatestEvent {
  /**
   * Its turn. Range: at least 1.
   */
  readonly turn: number;
  /**
   * When it happened (RFC 3339).
   */
  readonly at: string;
  /**
   * Its id.
   */
  readonly id: string;
}
/**
 * Where the student is in one drill.
 */
export interface DrillStanding {
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * Not begun, being worked on, or finished: the gate of its last rung was met.
   */
  readonly state: "closed" | "open" | "complete";
  /**
   * Present when the edition in force does not have the drill; everything known of it is kept.
   */
  readonly withdrawn?: true;
  /**
   * The rung the student is on; absent while the drill is closed.
   */
  readonly rung?: string;
  /**
   * What brought the student to this rung; absent while the drill is closed.
   */
  readonly by?: "drill opened" | "advanced" | "gone back" | "edition changed" | "set by teacher" | "placement test";
  readonly takenFrom?: TakenFrom;
  readonly completed?: Completion;
  /**
   * Every rung of the drill that takes were played to or the student was put on, in that order, also those the edition in force does not have.
   */
  readonly rungs: readonly RungStanding[];
}
/**
 * Where an edition took the student from: because it does not have that rung, or has further rungs after the last one. Present until something else moves the student; an edition that is as it was then puts the student back.
 */
export interface TakenFrom {
  /**
   * The rung the student was on.
   */
  readonly rung: string;
  /**
   * The state the drill was in.
   */
  readonly state: "open" | "complete";
}
/**
 * Present once the drill was completed; drills that need it go by this, and it is kept through later editions.
 */
export interface Completion {
  /**
   * Id of the event.
   */
  readonly event: string;
  /**
   * Settings of a rung in canonical form.
   */
  readonly rung: string;
  /**
   * Edition in force then.
   */
  readonly edition: string;
}
/**
 * What was shown on one rung.
 */
export interface RungStanding {
  /**
   * Settings of a rung in canonical form.
   */
  readonly rung: string;
  /**
   * The takes played to it, in the order of the journal.
   *
   * Items: Name of a take.
   */
  readonly takes: readonly string[];
  /**
   * One letter for each of these takes: w within tolerance, b beyond, u unclear.
   */
  readonly outcomes: string;
  /**
   * For each of these takes, landings left out and asked for, then the same of the other notes; zeros where the journal does not say. Absent when it says so of none.
   */
  readonly leftOut?: readonly NotesLeftOut[];
  /**
   * How many of these takes lie before the student's present stay on the rung and are no evidence for the next decision. Range: at least 0.
   */
  readonly from: number;
  readonly credit?: Credit;
}
/**
 * Present when the gate of this rung was met and has not lapsed by going back since.
 */
export interface Credit {
  /**
   * Id of the event that gave the credit.
   */
  readonly event: string;
  /**
   * The clean takes it rests on.
   *
   * Items: Name of a take.
   */
  readonly evidence: readonly string[];
}
