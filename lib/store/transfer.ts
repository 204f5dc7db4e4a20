import { journalText } from "../progress/index.js";
import type { JournalEvent } from "../schema/index.js";
import type { JournalKey, Store } from "./model.js";
import type { Problem } from "./problem.js";

/**
 * All events of the store, of one student, or of one curriculum, as JSON Lines: journal after journal, each in its order.
 *
 * @example
 * for await (const line of exportJournals(store, { student: "tern" })) JSON.parse(line).student; // "tern"
 */
export async function* exportJournals(
  store: Store,
  of: { readonly student?: string; readonly curriculum?: string } = {},
): AsyncIterable<string> {
  for await (const entry of store.journals(of)) {
    if (of.curriculum !== undefined && entry.curriculum !== of.curriculum) continue;
    for await (const event of store.events(entry)) yield journalText([event]);
  }
}

/** Events per durable write of an import: our choice. */
const BATCH = 1000;

/** A value read from a line (1-based) of a file. */
export interface ReadLine {
  readonly value: unknown;
  readonly line: number;
}

export interface Imported {
  readonly added: number;
  readonly known: number;
  /** Number of journals with events that were added or known. */
  readonly journals: number;
  /** Problems with refused lines, each with its line. */
  readonly problems: readonly Problem[];
}

/**
 * Adds events of any number of journals, in any order. Invalid events are reported with their line, and all others are kept.
 *
 * @example
 * (await importJournals(memoryStore(), events.map((value, i) => ({ value, line: i + 1 })))).added === events.length // true
 */
export async function importJournals(store: Store, lines: Iterable<ReadLine>): Promise<Imported> {
  const seen = new Set<string>();
  const problems: Problem[] = [];
  let [added, known] = [0, 0];
  let batch: ReadLine[] = [];
  let key: JournalKey = { student: "", curriculum: "" };
  const keep = async (): Promise<void> => {
    if (batch.length === 0) return;
    const merged = await store.merge(
      key,
      batch.map(({ value }) => value),
    );
    added += merged.added;
    known += merged.known;
    if (merged.added + merged.known > 0) seen.add(JSON.stringify([key.student, key.curriculum]));
    for (const each of merged.problems)
      problems.push({ ...each, where: { line: batch[Number(each.where.pointer?.slice(1))]!.line } });
    batch = [];
  };
  for (const each of lines) {
    const { student, curriculum } = (each.value ?? {}) as Partial<JournalEvent>;
    const named = typeof student === "string" && typeof curriculum === "string";
    const other = named && (student !== key.student || curriculum !== key.curriculum);
    if (other || batch.length >= BATCH) await keep();
    if (other) key = { student, curriculum };
    batch.push(each);
  }
  await keep();
  return { added, known, journals: seen.size, problems };
}
