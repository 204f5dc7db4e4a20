import type { JournalEvent } from "../schema/index.js";
import { canonicalJson } from "./canonicalJson.js";

/** What decides the place of an event in its journal. */
export type EventKey = Pick<JournalEvent, "turn" | "at" | "id">;

/**
 * The order of a journal: by turn, then time as text, then id. A turn is one more than the highest its writer knew (Lamport, "Time,
 * clocks, and the ordering of events in a distributed system", 1978), so what an event rests on comes before it whatever the clocks say.
 */
export function compareKeys(a: EventKey, b: EventKey): number {
  return a.turn - b.turn || compareTexts(a.at, b.at) || compareTexts(a.id, b.id);
}

/** The same, and among events that claim the same place by all they say, so that the order never depends on delivery. */
export function compareEvents(a: JournalEvent, b: JournalEvent): number {
  return compareKeys(a, b) || compareTexts(canonicalJson(a), canonicalJson(b));
}

/** Whether an event may come right after another. */
export function follows(before: JournalEvent, event: JournalEvent): boolean {
  const difference = compareKeys(before, event);
  return difference < 0 || (difference === 0 && compareEvents(before, event) <= 0);
}

/** By UTF-16 code units: the same on every machine, unlike `localeCompare`. */
function compareTexts(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
