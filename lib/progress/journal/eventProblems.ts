import type { Problem } from "../../base/index.js";
import type { JournalEvent, Standing } from "../../schema/index.js";
import { progressProblem } from "../codes.js";

/** The student and the curriculum of a journal. */
export interface JournalOwner {
  readonly student: string;
  readonly curriculum: string;
}

/** EVENT_FOREIGN when an event belongs to another journal; otherwise `undefined`. */
export function foreignEvent(event: JournalEvent, { student, curriculum }: JournalOwner): Problem | undefined {
  if (event.student === student && event.curriculum === curriculum) return undefined;
  const message = `event ${event.id} is of ${event.student} in ${event.curriculum}; this journal is of ${student} in ${curriculum}`;
  return progressProblem("EVENT_FOREIGN", message);
}

/** NOT_ENROLLED: an event before the first enrolment. */
export function notEnrolled(event: JournalEvent): Problem {
  return progressProblem("NOT_ENROLLED", `event ${event.id} comes before any enrolment`);
}

/** EVENT_BEHIND: an event that belongs before the latest counted one. */
export function eventBehind(event: JournalEvent, { latest }: Standing): Problem {
  const message = `event ${event.id} (turn ${event.turn}) belongs before ${latest.id} (turn ${latest.turn}), which is counted`;
  return progressProblem("EVENT_BEHIND", message, {}, "if it is not known yet, fold the journal with it");
}

/** EVENT_ID_REUSED: two different events with one id. */
export function eventIdReused(event: JournalEvent): Problem {
  return progressProblem(
    "EVENT_ID_REUSED",
    `two events with the id ${event.id} say different things; the first counts`,
  );
}

/** JOURNAL_GAP: turns are missing between `turn` and the event. */
export function journalGap(event: JournalEvent, turn: number): Problem {
  const message = `event ${event.id} has turn ${event.turn}, and the last one before it ${turn}; turns go up by one`;
  return progressProblem("JOURNAL_GAP", message, {}, "look for events that were lost or have not arrived");
}

/** DECISION_OVERTAKEN: another device decided first. Nothing is wrong, and the event has no effect. */
export function decisionOvertaken(event: JournalEvent, because: string): Problem {
  return progressProblem("DECISION_OVERTAKEN", `event ${event.id} has no effect: ${because}`);
}
