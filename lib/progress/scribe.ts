import type { JournalEvent, Standing } from "../schema/index.js";
import { eventId } from "./eventId.js";
import { apply } from "./fold.js";
import { isTimestamp } from "./timestamp.js";

/** What an event says beside its place in the journal. */
export type Draft<Event = JournalEvent> = Event extends JournalEvent
  ? Omit<Event, "version" | "id" | "turn" | "at" | "student" | "curriculum">
  : never;

/** New events, to be appended to the journal as one, and the standing with them. */
export interface Entries {
  readonly events: readonly JournalEvent[];
  readonly standing: Standing;
}

/** Writes events one after the other, each on top of the standing with those before. */
export interface Scribe extends Entries {
  standing: Standing;
  readonly events: JournalEvent[];
  readonly at: string;
}

/** Throws `RangeError` when `at` is not an RFC 3339 time. */
export function openScribe(standing: Standing, at: string): Scribe {
  requireTimestamp(at);
  return { standing, events: [], at };
}

export function write(scribe: Scribe, draft: Draft): void {
  const { student, curriculum, latest } = scribe.standing;
  const body = { version: 1, ...draft, turn: latest.turn + 1, at: scribe.at, student, curriculum } as Omit<
    JournalEvent,
    "id"
  >;
  const event = { ...body, id: eventId(body) } as JournalEvent;
  const { standing, problems } = apply(scribe.standing, event);
  // What this library writes, it must be able to read: anything else is a defect, and no journal should get it.
  if (problems.length > 0) throw new Error(problems.map((problem) => `${problem.code}: ${problem.message}`).join("; "));
  scribe.standing = standing;
  scribe.events.push(event);
}

export function requireTimestamp(at: string): void {
  if (!isTimestamp(at)) throw new RangeError(`a time must be RFC 3339 such as 2026-03-02T17:30:00Z, got ${at}`);
}
