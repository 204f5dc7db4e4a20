import type { Problem } from "../base/index.js";
import type { JournalEvent, Standing } from "../schema/index.js";

/** Which journal: one student in one curriculum. Both names have 1 to 200 characters. */
export interface JournalKey {
  readonly student: string;
  readonly curriculum: string;
}

/** A journal in a list of them. */
export interface JournalEntry extends JournalKey {
  /** Edition in force; `undefined` while the enrolment has not arrived. */
  readonly edition: string | undefined;
  /** Events kept. */
  readonly events: number;
  /** Goes up with each change of the journal; what `append` expects. */
  readonly revision: number;
}

/** A journal as it is now. */
export interface OpenJournal extends JournalEntry {
  /**
   * What the kept events amount to: the same as `fold` of them. `undefined` while the enrolment has not arrived. The takes of a drill may
   * be read from their text only when they are looked at.
   */
  readonly standing: Standing | undefined;
}

/** `kept`: all events are in the journal, durably. `overtaken`: another writer was first and nothing was written; open it again and decide anew. */
export interface Appended {
  readonly outcome: "kept" | "overtaken";
  /** Revision of the journal now. */
  readonly revision: number;
  /** Events that were not there before. */
  readonly added: number;
}

/** What became of events written elsewhere. */
export interface Merged {
  readonly added: number;
  /** Events that were there already. */
  readonly known: number;
  /** Events that are malformed or of another journal, by their index in the list given (pointer `/0`); they are not kept. */
  readonly problems: readonly Problem[];
}

/** What was erased, and what is out of the store's reach. */
export interface Erasure {
  readonly journals: number;
  readonly events: number;
  /** Where copies may be left that the store cannot reach, in words. */
  readonly elsewhere: readonly string[];
}

/** An edition of a course as the teacher wrote it, with the files beside it. */
export interface CourseText {
  readonly curriculum: string;
  readonly edition: string;
  /** Name of the file it was read from, for the places of problems. */
  readonly file: string;
  readonly text: string;
  /** Bytes of MIDI and MusicXML files by their path below the course's folder. */
  readonly files: Readonly<Record<string, Uint8Array>>;
}

/**
 * Journals kept for good, one for each student and curriculum, and the courses they are about.
 *
 * Whatever a method has answered is durable. A method rejects with an `Error` that carries a `problem` (see `failureProblem`) when the
 * disk is full, the file cannot be written, the server is gone and the like; nothing is half done then, and doing it again is safe.
 */
export interface Store {
  /** Where it is, for people: a path, or an address without its password. */
  readonly place: string;
  /** Every journal, or those of one student, in the order of student and curriculum (by UTF-8 bytes). */
  journals(of?: { readonly student?: string }): AsyncIterable<JournalEntry>;
  /** A journal with its standing; `undefined` when there is none. Time grows with the number of drills, hardly with that of events. */
  open(key: JournalKey): Promise<OpenJournal | undefined>;
  /** The kept events in the journal's order; none when there is no such journal. */
  events(key: JournalKey): AsyncIterable<JournalEvent>;
  /**
   * Adds events decided on the standing of `revision` (0: no journal yet), all or none. Events that are all there already are `kept`
   * whatever the revision, so that an unanswered call can be repeated. Throws `RangeError` for events that are malformed or of another journal.
   */
  append(key: JournalKey, events: readonly JournalEvent[], revision: number): Promise<Appended>;
  /** Adds events written elsewhere, in whatever order and however often they arrive; what is wrong with one is told and the others are kept. */
  merge(key: JournalKey, events: readonly unknown[]): Promise<Merged>;
  /** Removes everything there is about a student, and its traces in the store's own files. Nothing is there: only the traces are seen to. Rejects when they cannot be removed now. */
  erase(student: string): Promise<Erasure>;
  /** What is wrong with the store or one journal: altered or lost events, a standing that is not what they amount to. None: all is well. */
  verify(key?: JournalKey): AsyncIterable<Problem>;
  /** Works a journal's standing and counts out anew; events that cannot be read are set aside, not thrown away. Gives the number set aside. */
  repair(key: JournalKey): Promise<number>;
  /** Keeps an edition of a course. `replaced`: another text was kept under this number, which stays kept but is no longer used. */
  keepCourse(course: CourseText): Promise<"kept" | "known" | "replaced">;
  /** The text kept last of an edition. */
  course(curriculum: string, edition: string): Promise<CourseText | undefined>;
  /** Lets go of the file or the connections; the store cannot be used afterwards. */
  close(): Promise<void>;
}
