import { canonicalJson } from "../../progress/index.js";
import type { JournalEvent } from "../../schema/index.js";
import { checkEvents, requireEvents } from "../checkEvents.js";
import type { Appended, JournalKey, Merged } from "../model.js";
import { addEvents, at, known } from "./addEvents.js";
import type { Database, Trx } from "./database.js";
import { digestOf } from "./digest.js";
import { keyText } from "./keyText.js";
import type { JournalRow } from "./tables.js";

/** Adds events that were decided on a revision, unless another writer was first. */
export function append(
  { db }: Database,
  key: JournalKey,
  { events, revision }: { readonly events: readonly JournalEvent[]; readonly revision: number },
): Promise<Appended> {
  requireEvents(key, events);
  // Every writing transaction begins with a write, so that in any database the journal is locked from the first statement.
  return db.transaction().execute(async (trx): Promise<Appended> => {
    const row = revision === 0 ? await begin(trx, key) : await claim(trx, key, revision);
    if (row === undefined) return repeated(trx, key, events);
    const added = await addEvents(trx, key, { row, events });
    return { outcome: "kept", added, revision: await settled(trx, key, { row, added }) };
  });
}

/** Adds events written elsewhere. */
export function merge({ db }: Database, key: JournalKey, values: readonly unknown[]): Promise<Merged> {
  const { events, problems } = checkEvents(key, values);
  if (events.length === 0) return Promise.resolve({ added: 0, known: 0, problems });
  return db.transaction().execute(async (trx): Promise<Merged> => {
    const row = (await begin(trx, key)) ?? (await claim(trx, key))!;
    const added = await addEvents(trx, key, { row, events });
    await settled(trx, key, { row, added });
    return { added, known: events.length - added, problems };
  });
}

/** Inserts the row of a new journal; `undefined` when the journal exists. */
async function begin(trx: Trx, key: JournalKey): Promise<JournalRow | undefined> {
  return trx
    .insertInto("leeway_journals")
    .values({
      student: keyText(key.student),
      curriculum: keyText(key.curriculum),
      revision: 1,
      events: 0,
      last_turn: 0,
      last_at: "",
      last_id: "",
      edition: null,
      latest: null,
      counted: null,
    })
    .onConflict((conflict) => conflict.columns(["student", "curriculum"]).doNothing())
    .returningAll()
    .executeTakeFirst();
}

/** Raises the revision of a journal, which locks its row; `undefined` when the revision is not the expected one. */
async function claim(trx: Trx, key: JournalKey, expected?: number): Promise<JournalRow | undefined> {
  const update = at(trx.updateTable("leeway_journals"), key).set((row) => ({ revision: row("revision", "+", 1) }));
  const exact = expected === undefined ? update : update.where("revision", "=", expected);
  return exact.returningAll().executeTakeFirst();
}

/** The revision after the write. When no event was added, the raised revision is taken back. */
async function settled(
  trx: Trx,
  key: JournalKey,
  { row, added }: { readonly row: JournalRow; readonly added: number },
): Promise<number> {
  if (added > 0) return row.revision;
  if (row.events > 0)
    await at(trx.updateTable("leeway_journals"), key)
      .set({ revision: row.revision - 1 })
      .execute();
  else await at(trx.deleteFrom("leeway_journals"), key).execute();
  return row.revision - 1;
}

/** A repeated call, whose events are all in the journal, gets the answer `kept`; any other call was overtaken. */
async function repeated(trx: Trx, key: JournalKey, events: readonly JournalEvent[]): Promise<Appended> {
  const row = await at(trx.selectFrom("leeway_journals"), key).select("revision").executeTakeFirst();
  const { digests } = await known(trx, key, events);
  const isThere = events.every((event) => digests.has(digestOf(canonicalJson(event))));
  return { outcome: isThere ? "kept" : "overtaken", revision: row?.revision ?? 0, added: 0 };
}
