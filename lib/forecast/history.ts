import { compareEvents } from "../progress/index.js";
import type { JournalEvent, TakeAssessed } from "../schema/index.js";
import { type Day, dayOfTime } from "../time/index.js";

/** Parts of a journal that a plan needs. */
export interface History {
  /** The takes assessed, each once, in the order of the journal. */
  readonly takes: readonly Played[];
  /** Drills a teacher, or a placement test, has put the student on. */
  readonly placed: ReadonlySet<string>;
}
export interface Played extends Pick<TakeAssessed, "take" | "drill" | "rung" | "verdict" | "measured"> {
  readonly day: Day;
}

/**
 * History of a journal. The events may come in any order. No events: no takes, no drills.
 *
 * @example
 * historyOf(events).takes.length // 1
 */
export function historyOf(events: Iterable<JournalEvent>): History {
  const takes = new Map<string, Played>();
  const placed = new Set<string>();
  for (const event of [...events].sort(compareEvents)) {
    if (event.kind === "set by teacher") placed.add(event.drill);
    if (event.kind !== "take assessed" || takes.has(event.take)) continue;
    const { take, drill, rung, verdict, measured } = event;
    const day = dayOfTime(event.at);
    takes.set(take, { take, drill, rung, verdict, day, ...(measured === undefined ? {} : { measured }) });
  }
  return { takes: [...takes.values()], placed };
}
