import type { DBSchema } from "idb";

/** Raised with each change of the tables. */
export const TABLES_VERSION = 1;

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

export interface Tables extends DBSchema {
  journals: { key: Key; value: JournalRow };
  events: {
    key: [student: string, curriculum: string, turn: number, digest: string];
    value: EventRow;
    indexes: { byId: [student: string, curriculum: string, id: string] };
  };
  setAside: { key: [student: string, curriculum: string, digest: string]; value: Omit<EventRow, "turn" | "id"> };
  courses: { key: number; value: CourseRow; indexes: { byEdition: [curriculum: string, edition: string] } };
}
