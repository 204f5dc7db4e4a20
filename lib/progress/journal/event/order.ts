import type { JournalEvent } from "../../../schema/index.js";
import { canonicalJson } from "../canonicalJson.js";

/** The fields that determine the place of an event in its journal. */
export type EventKey = Pick<JournalEvent, "turn" | "at" | "id">;

/**
 * The order of a journal: by turn, then by time as text, then by id. Negative when `a` comes first, 0 when equal, positive otherwise. A turn is
 * a logical clock: one more than the highest turn that the writer knew (Lamport, "Time, clocks, and the ordering of events in a distributed
 * system", 1978). So the evidence of an event always comes before it, even when device clocks are wrong.
 */
export function compareKeys(a: EventKey, b: EventKey): number {
  return a.turn - b.turn || compareTexts(a.at, b.at) || compareTexts(a.id, b.id);
}

/** `compareKeys`; events with equal keys are ordered by their canonical JSON, so that the order never depends on delivery. */
export function compareEvents(a: JournalEvent, b: JournalEvent): number {
  return compareKeys(a, b) || compareTexts(canonicalJson(a), canonicalJson(b));
}

/** Whether `event` may come after `before` in a journal. */
export function follows(before: JournalEvent, event: JournalEvent): boolean {
  const difference = compareKeys(before, event);
  return difference < 0 || (difference === 0 && compareEvents(before, event) <= 0);
}

/** Compares by UTF-16 code units, which gives the same order on every machine (`localeCompare` does not). */
function compareTexts(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
