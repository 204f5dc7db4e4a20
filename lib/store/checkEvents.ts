import { foreignEvent, readEvent } from "../progress/index.js";
import type { JournalEvent } from "../schema/index.js";
import type { JournalKey } from "./model.js";
import type { Problem } from "./problem.js";

/** The valid events of a journal among unknown values. */
export interface CheckedEvents {
  readonly events: readonly JournalEvent[];
  /** The problems with all other values, each with the index of the value as pointer. */
  readonly problems: readonly Problem[];
}

/** Selects the events of this journal. It does not check whether an event has an effect, because an earlier event may still arrive. */
export function checkEvents(key: JournalKey, values: readonly unknown[]): CheckedEvents {
  const events: JournalEvent[] = [];
  const problems: Problem[] = [];
  values.forEach((value, index) => {
    const event = readEvent(value);
    const found = "code" in event ? event : foreignEvent(event, key);
    if (found === undefined) events.push(event as JournalEvent);
    else problems.push({ ...found, where: { pointer: `/${index}` } });
  });
  return { events, problems };
}

/** Checks events made by a program: throws `RangeError` when one of them is not an event of this journal. */
export function requireEvents(key: JournalKey, events: readonly JournalEvent[]): void {
  const { problems } = checkEvents(key, events);
  if (problems.length > 0) throw new RangeError(problems.map((each) => `${each.code}: ${each.message}`).join("; "));
}
