import type { Problem } from "../base/index.js";
import { problemsOf } from "../base/index.js";
import { progressCodes, readEvent } from "../progress/index.js";
import type { JournalEvent } from "../schema/index.js";
import type { JournalKey } from "./model.js";

const problem = problemsOf(progressCodes);

/** Events of a journal among values that may be anything. */
export interface Screened {
  readonly events: readonly JournalEvent[];
  /** What is wrong with the others, each with its index as pointer. */
  readonly problems: readonly Problem[];
}

/** Keeps what is an event of this journal. Whether an event has an effect is not asked: an earlier one may still arrive. */
export function screen(key: JournalKey, values: readonly unknown[]): Screened {
  const events: JournalEvent[] = [];
  const problems: Problem[] = [];
  values.forEach((value, index) => {
    const event = readEvent(value);
    const found = "code" in event ? event : foreign(key, event);
    if (found === undefined) events.push(event as JournalEvent);
    else problems.push({ ...found, where: { pointer: `/${index}` } });
  });
  return { events, problems };
}

/** The same for events somebody's program made: anything wrong with them is misuse. */
export function requireEvents(key: JournalKey, events: readonly JournalEvent[]): void {
  const { problems } = screen(key, events);
  if (problems.length > 0) throw new RangeError(problems.map((each) => `${each.code}: ${each.message}`).join("; "));
}

function foreign(key: JournalKey, event: JournalEvent): Problem | undefined {
  if (event.student === key.student && event.curriculum === key.curriculum) return undefined;
  const message = `event ${event.id} is of ${event.student} in ${event.curriculum}; this journal is of ${key.student} in ${key.curriculum}`;
  return problem("EVENT_FOREIGN", message);
}
