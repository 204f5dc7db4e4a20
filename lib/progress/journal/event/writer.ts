import type { JournalEvent, Standing } from "../../../schema/index.js";
import { isTimestamp } from "../../../time/index.js";
import { afterEvent } from "../afterEvent.js";
import { eventId } from "./id.js";

/** An event without its id and its place in the journal. */
export type EventDraft<Event = JournalEvent> = Event extends JournalEvent
  ? Omit<Event, "version" | "id" | "turn" | "at" | "student" | "curriculum">
  : never;

/** New events, to be appended to the journal together, and the standing after them. */
export interface Entries {
  readonly events: readonly JournalEvent[];
  readonly standing: Standing;
}

/** New events in the making: each is based on the standing after those before it. */
export interface EventWriter extends Entries {
  standing: Standing;
  readonly events: JournalEvent[];
  readonly at: string;
}

/** Throws `RangeError` when `at` is not an RFC 3339 time. */
export function openEventWriter(standing: Standing, at: string): EventWriter {
  requireTimestamp(at);
  return { standing, events: [], at };
}

export function writeEvent(writer: EventWriter, draft: EventDraft): void {
  const { student, curriculum, latest } = writer.standing;
  const body = { version: 2, ...draft, turn: latest.turn + 1, at: writer.at, student, curriculum } as Omit<
    JournalEvent,
    "id"
  >;
  const event = { ...body, id: eventId(body) } as JournalEvent;
  // An event that this library could not read back is a defect and must not get into a journal.
  writer.standing = afterEvent(event, writer.standing);
  writer.events.push(event);
}

export function requireTimestamp(at: string): void {
  if (!isTimestamp(at)) throw new RangeError(`a time must be RFC 3339 such as 2026-03-02T17:30:00Z, got ${at}`);
}
