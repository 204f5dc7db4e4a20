import type { JournalEvent } from "../schema/index.js";
import type { JournalKey, Store } from "./model.js";

/**
 * Every event of a journal, in its order; none when there is no such journal. All are in memory at once: a journal is read one event after the
 * other by `store.events`.
 *
 * @example
 * (await eventsOf(memoryStore(), { student: "tern", curriculum: "quayside-time" })).length // 0
 */
export async function eventsOf(store: Pick<Store, "events">, key: JournalKey): Promise<readonly JournalEvent[]> {
  const events: JournalEvent[] = [];
  for await (const event of store.events(key)) events.push(event);
  return events;
}
