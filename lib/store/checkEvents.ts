import type { Problem } from "../base/index.js";
import { foreignEvent, readEvent } from "../progress/index.js";
import type { JournalEvent } from "../schema/index.js";
import type { JournalKey } from "./model.js";

/** Events of a journal among values that may be anything. */
export interface CheckedEvents {
  readonly events: readonly JournalEvent[];
  /** What is wrong with the others, each with its index as pointer. */
  readonly problems: readonly Problem[];
}

/** Keeps what is an event of this journal. Whether an event has an effect is not asked: an earlier one may still arrive. */
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

/** The same for events somebody's program made: anything wrong with them is misuse. */
export function requireEvents(key: JournalKey, events: readonly JournalEvent[]): void {
  const { problems } = checkEvents(key, events);
  if (problems.length > 0) throw new RangeError(problems.map((each) => `${each.code}: ${each.message}`).join("; "));
}
