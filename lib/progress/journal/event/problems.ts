import type { JournalEvent, Standing, TakeAssessed } from "../../../schema/index.js";
import { type Complaint, complaint } from "../complaint.js";

/** The student and the curriculum of a journal. */
export interface JournalOwner {
  readonly student: string;
  readonly curriculum: string;
}

/** EVENT_FOREIGN when an event belongs to another journal; otherwise `undefined`. */
export function ofOtherJournal(event: JournalEvent, owner: JournalOwner): Complaint | undefined {
  const { id, student, curriculum } = event;
  if (student === owner.student && curriculum === owner.curriculum) return undefined;
  const whose = { id, student, curriculum, owner: owner.student, course: owner.curriculum };
  return complaint("EVENT_FOREIGN", "journal-problem.event-foreign", whose);
}

/** NOT_ENROLLED: an event before the first enrolment. */
export function notEnrolled({ id }: JournalEvent): Complaint {
  return complaint("NOT_ENROLLED", "journal-problem.not-enrolled", { id });
}

/** EVENT_BEHIND: an event that belongs before the latest counted one. */
export function eventBehind({ id, turn }: JournalEvent, { latest }: Standing): Complaint {
  const places = { id, turn: String(turn), latest: latest.id, latestTurn: String(latest.turn) };
  return {
    ...complaint("EVENT_BEHIND", "journal-problem.event-behind", places),
    remedy: { key: "journal-problem.event-behind-remedy", parameters: {} },
  };
}

/** TAKE_TOLD_TWICE: two devices told a take in different ways. */
export function takeToldTwice({ take }: TakeAssessed): Complaint {
  return complaint("TAKE_TOLD_TWICE", "journal-problem.take-told-twice", { take });
}

/** EVENT_ID_REUSED: two different events with one id. */
export function eventIdReused({ id }: JournalEvent): Complaint {
  return complaint("EVENT_ID_REUSED", "journal-problem.event-id-reused", { id });
}

/** JOURNAL_GAP: turns are missing between `turn` and the event. */
export function journalGap({ id, turn }: JournalEvent, before: number): Complaint {
  const turns = { id, turn: String(turn), before: String(before) };
  return {
    ...complaint("JOURNAL_GAP", "journal-problem.journal-gap", turns),
    remedy: { key: "journal-problem.journal-gap-remedy", parameters: {} },
  };
}

/** DECISION_OVERTAKEN: another device decided first. Nothing is wrong, and the event has no effect. */
export function overtaken({ id }: JournalEvent, because: "credit" | "enrolled" | "takes"): Complaint {
  return complaint("DECISION_OVERTAKEN", `journal-problem.overtaken-${because}`, { id });
}

/** DECISION_OVERTAKEN: the student was not where the event takes them from. */
export function leftRung({ id }: JournalEvent, rung: string): Complaint {
  return complaint("DECISION_OVERTAKEN", "journal-problem.overtaken-rung", { id, rung });
}
