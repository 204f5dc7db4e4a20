import { fold, summarise } from "../progress/index.js";
import { byName } from "./byName.js";
import { eventsOf } from "./eventsOf.js";
import type { KeptSummary, Store } from "./model.js";

/** Summaries for a store that keeps none: each worked out of the events. */
export async function summariesByEvents(
  store: Pick<Store, "events">,
  { curriculum, students }: { readonly curriculum: string; readonly students: readonly string[] },
): Promise<readonly KeptSummary[]> {
  const found: KeptSummary[] = [];
  for (const student of new Set(students)) {
    const key = { student, curriculum };
    const events = await eventsOf(store, key);
    const summary = summarise(events, fold(events, { of: key }));
    if (summary !== undefined) found.push({ student, summary });
  }
  return found.sort((a, b) => byName({ ...a, curriculum }, { ...b, curriculum }));
}
