import type { Message } from "../base/index.js";
import type { JournalSummary } from "../progress/index.js";
import type { JournalEvent, Standing } from "../schema/index.js";
import type { Problem } from "./problem.js";
import type { Register } from "./register/model.js";

/** The key of a journal: one student in one curriculum. Both names have 1 to 200 characters. */
export interface JournalKey {
  readonly student: string;
  readonly curriculum: string;
}

/** A journal in a list of them. */
export interface JournalEntry extends JournalKey {
  /** Current edition; `undefined` while the enrolment has not arrived. */
  readonly edition: string | undefined;
  /** Number of events kept. */
  readonly events: number;
  /** Grows with each change of the journal. `append` expects it. */
  readonly revision: number;
}

/** A journal with its standing. */
export interface OpenJournal extends JournalEntry {
  /**
   * The `fold` of the kept events; `undefined` while the enrolment has not arrived. The takes of a drill may be parsed only when they are
   * first read.
   */
  readonly standing: Standing | undefined;
}

/** `kept`: all events are in the journal, durably. `overtaken`: another writer was first and nothing was written; open the journal again and decide again. */
export interface Appended {
  readonly outcome: "kept" | "overtaken";
  /** Revision of the journal after the call. */
  readonly revision: number;
  /** Number of events that were not in the journal before. */
  readonly added: number;
}

/** The result of merging events written elsewhere. */
export interface Merged {
  readonly added: number;
  /** Number of events that were already in the journal. */
  readonly known: number;
  /** Events that are malformed or of another journal, each with its index in the given list as pointer (`/0`); they are not kept. */
  readonly problems: readonly Problem[];
}

/** The result of erasing a student. */
export interface Erasure {
  readonly journals: number;
  readonly events: number;
  /** Places of possible copies that the store cannot reach, in words. */
  readonly elsewhere: readonly string[];
  /** The same places before they are worded, in the same order. */
  readonly elsewhereMessages: readonly Message[];
}

/** What reports need of a journal, as it is kept beside it. */
export interface KeptSummary {
  readonly student: string;
  readonly summary: JournalSummary;
}

/** What was learnt of a student by the takes so far, as whoever keeps it writes it: it can be worked out again, and is never evidence. */
export interface Learnt {
  /** What it rests on, without blanks: whoever reads it compares, and learns anew when that is otherwise. */
  readonly basis: string;
  /** Takes it rests on. */
  readonly takes: number;
  readonly body: string;
}

/** Where what was learnt of students is kept, and erased with them. */
export interface LearntStore {
  read(key: JournalKey): Promise<Learnt | undefined>;
  /** Keeps it in place of what was kept before. Rejects for a journal that is not there. */
  keep(key: JournalKey, learnt: Learnt): Promise<void>;
}

/** An edition of a course as the teacher wrote it, with its files. */
export interface CourseText {
  readonly curriculum: string;
  readonly edition: string;
  /** Name of the source file, for the places of problems. */
  readonly file: string;
  readonly text: string;
  /** Path of each MIDI and MusicXML file, relative to the folder of the course -> its bytes; of a recording -> what is known of it, and not the sound. */
  readonly files: Readonly<Record<string, Uint8Array>>;
}

/**
 * A durable store of journals, one for each student and curriculum, and of their courses.
 *
 * When the promise of a method has resolved, its changes are durable. A method rejects with a `StoreProblem` (see
 * `isStoreProblem`) when, for example, the disk is full, the file cannot be written, or the server is gone. Then nothing is half done, and
 * the call can be repeated safely.
 */
export interface Store {
  /** The place of the store, for people: a path, or an address without its password. */
  readonly place: string;
  /** Who is in the school: in SQLite and PostgreSQL. Other stores have none. */
  readonly register?: Register;
  /** What was learnt of students: in SQLite, PostgreSQL and IndexedDB. The store in memory keeps nothing of it. */
  readonly learnt?: LearntStore;
  /** All journals, or those of one student, ordered by student, then curriculum (by UTF-8 bytes). */
  journals(of?: { readonly student?: string }): AsyncIterable<JournalEntry>;
  /** A journal with its standing; `undefined` when there is none. The time depends on the number of drills, and hardly on that of events. */
  open(key: JournalKey): Promise<OpenJournal | undefined>;
  /**
   * What reports need of these students in a course, each once, in the order of their names (by UTF-8 bytes); whoever is not enrolled in it is left out. In SQLite and PostgreSQL the time does not
   * depend on the length of the journals.
   */
  summaries(of: { readonly curriculum: string; readonly students: readonly string[] }): Promise<readonly KeptSummary[]>;
  /** The kept events in the order of the journal; none when there is no such journal. */
  events(key: JournalKey): AsyncIterable<JournalEvent>;
  /**
   * Adds events that were decided on the standing of `revision` (0: no journal yet): all of them or none. When all events are already in the
   * journal, the outcome is `kept` for any revision, so that a call whose answer was lost can be repeated. Throws `RangeError` for events that are malformed or of another journal.
   */
  append(key: JournalKey, events: readonly JournalEvent[], revision: number): Promise<Appended>;
  /** Adds events written elsewhere, in any order and any number of times. Invalid events are reported, and all others are kept. */
  merge(key: JournalKey, events: readonly unknown[]): Promise<Merged>;
  /** Removes all data of a student and its traces in the files of the store; traces are removed also when there is no data. Rejects when they cannot be removed now. */
  erase(student: string): Promise<Erasure>;
  /** The problems of the store or of one journal: altered or lost events, or a standing or a summary that is not the fold of the events. No problems: all is well. */
  verify(key?: JournalKey): AsyncIterable<Problem>;
  /** Computes the standing, the summary and the counts of a journal again. Unreadable events are set aside, not deleted. Gives the number of events set aside. */
  repair(key: JournalKey): Promise<number>;
  /** Keeps an edition of a course. `replaced`: a different text had this edition number; it stays kept but is not used any more. */
  keepCourse(course: CourseText): Promise<"kept" | "known" | "replaced">;
  /** The text of an edition that was kept last; `undefined` when there is none. */
  course(curriculum: string, edition: string): Promise<CourseText | undefined>;
  /** Every text that was kept for an edition, the last one first; none when there is none. */
  courses(curriculum: string, edition: string): Promise<readonly CourseText[]>;
  /** Of a replica, which follows another server and may only be read: the moment of the last change that it has, ISO 8601; `undefined` before the first. Other stores have no such method. */
  followedUntil?(): Promise<string | undefined>;
  /** Closes the file or the connections. The store cannot be used afterwards. */
  close(): Promise<void>;
}
