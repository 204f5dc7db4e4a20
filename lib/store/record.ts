import type { JournalEvent } from "../schema/index.js";
import { storeProblem } from "./codes.js";
import { storeFailure } from "./failure.js";
import type { JournalKey, OpenJournal, Store } from "./model.js";
import { sayProblem } from "./say.js";

/** Largest number of times a decision is made again because another writer was first: our choice, far more than the devices of one student. */
const MOST_ATTEMPTS = 1000;

/**
 * Decides on the current journal and keeps the events of the decision. When another device writes in between, the journal is opened again and
 * `decide` is called again: nothing is lost, and no take is counted twice. So it is when another device kept the very same events in between.
 *
 * `decide` gets the journal (`undefined`: there is none) and returns new events, none when nothing is to be
 * kept, and anything else that the caller needs. It must decide only by the given journal, and record nothing in the same one. Rejects as the store does, and with STORE_BUSY when other writers are always first.
 *
 * @example
 * const decision = await record(store, { student: "tern", curriculum: course.name }, (journal) =>
 *   decide(course, journal!.standing!, finding, "2026-03-02T17:30:00Z"));
 */
export function record<Decided extends { readonly events: readonly JournalEvent[] }>(
  store: Store,
  key: JournalKey,
  decide: (journal: OpenJournal | undefined) => Decided | Promise<Decided>,
): Promise<Decided> {
  return inTurn(store, key, () => recordNow(store, key, decide));
}

/** What is going on in journals of each store, so that the takes of one student in one process wait for each other rather than overtake each other. */
const goingOn = new WeakMap<Store, Map<string, Promise<unknown>>>();

async function inTurn<T>(store: Store, key: JournalKey, work: () => Promise<T>): Promise<T> {
  const turns = goingOn.get(store) ?? new Map<string, Promise<unknown>>();
  goingOn.set(store, turns);
  const name = JSON.stringify([key.student, key.curriculum]);
  const before = turns.get(name);
  const mine = before === undefined ? work() : before.then(work, work);
  turns.set(name, mine);
  try {
    return await mine;
  } finally {
    if (turns.get(name) === mine) turns.delete(name);
  }
}

async function recordNow<Decided extends { readonly events: readonly JournalEvent[] }>(
  store: Store,
  key: JournalKey,
  decide: (journal: OpenJournal | undefined) => Decided | Promise<Decided>,
): Promise<Decided> {
  for (let attempt = 0; attempt < MOST_ATTEMPTS; attempt++) {
    const journal = await store.open(key);
    const decided = await decide(journal);
    if (decided.events.length === 0) return decided;
    const { outcome, added } = await store.append(key, decided.events, journal?.revision ?? 0);
    if (outcome !== "kept") continue;
    if (added > 0) return decided;
    // Another writer kept the very same events first: who decides now finds them there.
    const again = await decide(await store.open(key));
    return again.events.length === 0 ? again : decided;
  }
  const message = sayProblem("store-problem.always-overtaken", { student: key.student, times: MOST_ATTEMPTS });
  throw storeFailure(storeProblem("STORE_BUSY", message, {}, sayProblem("store-problem.always-overtaken-remedy")));
}
