import type { Curriculum } from "../../curriculum/index.js";
import type { Enrolled } from "../../schema/index.js";
import { afterEvent } from "../journal/afterEvent.js";
import { eventId } from "../journal/event/id.js";
import { type Entries, openEventWriter, requireTimestamp } from "../journal/event/writer.js";
import { openDrills } from "../openDrills.js";

/**
 * The first events of the journal of a student: the enrolment, and the opening of every drill that needs no other.
 *
 * Throws `RangeError` when `at` is not an RFC 3339 time or `student` is empty or longer than 200 characters.
 * @example beginJournal(curriculum, "tern", "2026-03-02T17:00:00Z").events.map((event) => event.kind) // ["enrolled", "drill opened"]
 */
export function beginJournal(curriculum: Curriculum, student: string, at: string): Entries {
  requireTimestamp(at);
  const body: Omit<Enrolled, "id"> = {
    version: 2,
    kind: "enrolled",
    turn: 1,
    at,
    student,
    curriculum: curriculum.name,
    edition: curriculum.edition,
  };
  const event: Enrolled = { ...body, id: eventId(body) };
  const writer = openEventWriter(afterEvent(event), at);
  writer.events.push(event);
  openDrills(curriculum, writer);
  return { events: writer.events, standing: writer.standing };
}
