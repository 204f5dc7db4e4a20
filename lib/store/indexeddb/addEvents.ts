import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { IDBPTransaction } from "idb";
import { canonicalJson, compareEvents, fold } from "../../progress/index.js";
import type { JournalEvent, Standing } from "../../schema/index.js";
import type { JournalKey } from "../model.js";
import { orderEvents } from "../orderEvents.js";
import type { EventRow, JournalRow, Tables } from "./tables.js";

export type Writing = IDBPTransaction<Tables, readonly ("journals" | "events" | "setAside" | "learnt")[], "readwrite">;

/** Hexadecimal digits kept: 128 bits, as in the other stores. */
const DIGITS = 32;

/** SHA-256 of a text in UTF-8, shortened. It is worked out at once, as a transaction waits for nothing else. */
export function digestOf(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text))).slice(0, DIGITS);
}

/** The keys of all events of a journal. */
export function rangeOf({ student, curriculum }: JournalKey): IDBKeyRange {
  return IDBKeyRange.bound([student, curriculum], [student, curriculum, []]);
}

export function rowOf(event: JournalEvent): EventRow {
  const { student, curriculum, turn, id } = event;
  const body = canonicalJson(event);
  return { student, curriculum, turn, id, digest: digestOf(body), body };
}

/** Of these events, those that are not in the journal yet. */
export async function freshOf(writing: Writing, rows: readonly EventRow[]): Promise<readonly EventRow[]> {
  const fresh = new Map<string, EventRow>();
  for (const row of rows) {
    const { student, curriculum, turn, digest } = row;
    const found = await writing.objectStore("events").getKey([student, curriculum, turn, digest]);
    if (found === undefined) fresh.set(digest, row);
  }
  return [...fresh.values()];
}

/** Adds fresh events and works out the standing; the next revision. Gives the row of the journal. */
export async function addEvents(
  writing: Writing,
  key: JournalKey,
  { row, fresh }: { readonly row: JournalRow | undefined; readonly fresh: readonly EventRow[] },
): Promise<JournalRow> {
  const store = writing.objectStore("events");
  const known = new Set<string>();
  for (const { student, curriculum, id } of fresh)
    if ((await store.index("byId").count([student, curriculum, id])) > 0) known.add(id);
  const last = row === undefined ? undefined : await lastEvent(writing, key);
  for (const each of fresh) await store.put(each);
  const given = fresh.map(({ body }) => JSON.parse(body) as JournalEvent);
  const { events, follows } = orderEvents(given, last, (id) => known.has(id));
  const before = row?.standing === undefined ? undefined : (JSON.parse(row.standing) as Standing);
  const standing =
    follows && before !== undefined
      ? fold(events, { after: before }).standing
      : fold(await eventsOf(writing, key), { of: key }).standing;
  return keepRow(writing, key, {
    events: (row?.events ?? 0) + fresh.length,
    revision: (row?.revision ?? 0) + 1,
    standing,
  });
}

export async function keepRow(
  writing: Writing,
  { student, curriculum }: JournalKey,
  {
    events,
    revision,
    standing,
  }: { readonly events: number; readonly revision: number; readonly standing: Standing | undefined },
): Promise<JournalRow> {
  const text = standing === undefined ? undefined : JSON.stringify(standing);
  const row = { student, curriculum, events, revision, edition: standing?.edition, standing: text };
  await writing.objectStore("journals").put(row);
  return row;
}

/** All events of a journal in its order. */
export async function eventsOf(writing: Writing, key: JournalKey): Promise<JournalEvent[]> {
  const rows = await writing.objectStore("events").getAll(rangeOf(key));
  return rows.map(({ body }) => JSON.parse(body) as JournalEvent).sort(compareEvents);
}

/** The last event in the order of the journal, by the rows of its last turn. */
async function lastEvent(writing: Writing, key: JournalKey): Promise<JournalEvent | undefined> {
  let last: JournalEvent | undefined;
  let cursor = await writing.objectStore("events").openCursor(rangeOf(key), "prev");
  const turn = cursor?.value.turn;
  for (; cursor !== null && cursor.value.turn === turn; cursor = await cursor.continue()) {
    const event = JSON.parse(cursor.value.body) as JournalEvent;
    if (last === undefined || compareEvents(last, event) < 0) last = event;
  }
  return last;
}
