import type { DBSchema } from "idb";
import type { Learnt } from "../model.js";

/** Raised with each change of the tables. */
export const TABLES_VERSION = 2;

type Key = [student: string, curriculum: string];

/** A journal beside its events. */
export interface JournalRow {
  readonly student: string;
  readonly curriculum: string;
  readonly events: number;
  readonly revision: number;
  readonly edition: string | undefined;
  /** The standing as JSON; `undefined` while the enrolment has not arrived. */
  readonly standing: string | undefined;
}

/** An event as canonical JSON, with its digest. */
export interface EventRow {
  readonly student: string;
  readonly curriculum: string;
  readonly turn: number;
  readonly id: string;
  readonly digest: string;
  readonly body: string;
}

/** A text of an edition; the last one counts. */
export interface CourseRow {
  readonly curriculum: string;
  readonly edition: string;
  readonly file: string;
  readonly text: string;
  readonly files: Readonly<Record<string, Uint8Array>>;
}

/** What was learnt of a student, with the digest of its text. */
export interface LearntRow extends Learnt {
  readonly student: string;
  readonly curriculum: string;
  readonly digest: string;
}

export interface Tables extends DBSchema {
  journals: { key: Key; value: JournalRow };
  events: {
    key: [student: string, curriculum: string, turn: number, digest: string];
    value: EventRow;
    indexes: { byId: [student: string, curriculum: string, id: string] };
  };
  setAside: { key: [student: string, curriculum: string, digest: string]; value: Omit<EventRow, "turn" | "id"> };
  learnt: { key: Key; value: LearntRow };
  courses: { key: number; value: CourseRow; indexes: { byEdition: [curriculum: string, edition: string] } };
}
