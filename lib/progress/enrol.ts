import type { Curriculum } from "../curriculum/index.js";
import type { Enrolled } from "../schema/index.js";
import { eventId } from "./eventId.js";
import { fold } from "./fold.js";
import { openDrills } from "./openDrills.js";
import { type Entries, openScribe, requireTimestamp } from "./scribe.js";

/**
 * The first events of a student's journal: enrolled, and every drill opened that needs no other.
 *
 * Throws `RangeError` when `at` is not an RFC 3339 time or `student` is empty or longer than 200 characters.
 * @example enrol(curriculum, "tern", "2026-03-02T17:00:00Z").events.map((event) => event.kind) // ["enrolled", "drill opened"]
 */
export function enrol(curriculum: Curriculum, student: string, at: string): Entries {
  requireTimestamp(at);
  const body: Omit<Enrolled, "id"> = {
    version: 1,
    kind: "enrolled",
    turn: 1,
    at,
    student,
    curriculum: curriculum.name,
    edition: curriculum.edition,
  };
  const event: Enrolled = { ...body, id: eventId(body) };
  const { standing, problems } = fold([event]);
  if (standing === undefined) throw new RangeError(problems.map((problem) => problem.message).join("; "));
  const scribe = openScribe(standing, at);
  scribe.events.push(event);
  openDrills(curriculum, scribe);
  return { events: scribe.events, standing: scribe.standing };
}
