import type { Entries } from "../progress/index.js";
import { storeProblem } from "./codes.js";
import { storeFailure } from "./failure.js";
import type { JournalKey, OpenJournal, Store } from "./model.js";

/** Times a decision is made anew because others were first; our choice: each of them got on meanwhile, so this many at once is no use of a journal. */
const MOST_ATTEMPTS = 1000;

/**
 * Decides on the journal as it is, and keeps the events of the decision. When another device writes in between, the journal is opened
 * again and `decide` asked again: nothing is lost, and a take that has been counted meanwhile is not counted twice.
 *
 * `decide` is given the journal (`undefined`: there is none) and answers with new events and the standing with them, and whatever else the caller wants to
 * know; it must decide by what it is given. Rejects as the store does, and with STORE_BUSY when others are always first.
 *
 * @example
 * const decision = await record(store, { student: "tern", curriculum: course.name }, (journal) =>
 *   decide(course, journal!.standing!, finding, "2026-03-02T17:30:00Z"));
 */
export async function record<Decided extends Entries>(
  store: Store,
  key: JournalKey,
  decide: (journal: OpenJournal | undefined) => Decided,
): Promise<Decided> {
  for (let attempt = 0; attempt < MOST_ATTEMPTS; attempt++) {
    const journal = await store.open(key);
    const decided = decide(journal);
    if (decided.events.length === 0) return decided;
    const { outcome } = await store.append(key, decided.events, journal?.revision ?? 0);
    if (outcome === "kept") return decided;
  }
  const message = `the journal of ${key.student} changed ${MOST_ATTEMPTS} times while this was being decided`;
  throw storeFailure(storeProblem("STORE_BUSY", message, {}, "try again later"));
}
