import type { JournalEvent } from "../../schema/index.js";
import type { Problem } from "../problem.js";
import { complaintProblem } from "./complaintProblem.js";
import { type JournalOwner, ofOtherJournal } from "./event/problems.js";
import { examineEvent } from "./event/shape.js";

/** Checks that a value is an event: gives the event as this version writes it, or the problem with it. */
export function readEvent(given: unknown): JournalEvent | Problem {
  const event = examineEvent(given);
  return "code" in event ? complaintProblem(event) : event;
}

/** EVENT_FOREIGN when an event belongs to another journal; otherwise `undefined`. */
export function foreignEvent(event: JournalEvent, owner: JournalOwner): Problem | undefined {
  const foreign = ofOtherJournal(event, owner);
  return foreign && complaintProblem(foreign);
}
