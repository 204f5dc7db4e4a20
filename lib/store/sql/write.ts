import { sql } from "kysely";
import { canonicalJson } from "../../progress/index.js";
import type { JournalEvent } from "../../schema/index.js";
import { checkEvents, requireEvents } from "../checkEvents.js";
import type { Appended, JournalKey, Merged } from "../model.js";
import { addEvents, at } from "./addEvents.js";
import { type Database, inTransaction, type Trx } from "./database.js";
import { digestOf } from "./digest.js";
import { workOut } from "./journalWrite.js";
import { keyText } from "./keyText.js";
import type { Lately } from "./lately.js";
import { readJournal } from "./read.js";
import { inPieces } from "./standingRows.js";
import type { JournalRow } from "./tables.js";

/** Values per statement: our choice, far below the limits of databases. */
const VALUES = 500;

/** A database, and what is held of its journals. */
export interface Desk {
  readonly database: Database;
  readonly lately: Lately;
}

/** Adds events that were decided on a revision, unless another writer was first. */
export async function append(
  { database, lately }: Desk,
  key: JournalKey,
  { events, revision }: { readonly events: readonly JournalEvent[]; readonly revision: number },
): Promise<Appended> {
  requireEvents(key, events);
  const began = performance.now();
  const held = lately.get(key);
  const known = revision === 0 || held?.row.revision === revision ? held : await readJournal(database, key);
  if ((known?.row.revision ?? 0) === revision) {
    const worked = workOut(key, known, events);
    // What is held may not be let go on from twice: whoever comes in between reads it anew.
    lately.set(key, undefined);
    if (worked !== undefined && (await database.write(worked.write))) {
      lately.written(key, worked.held);
      return { outcome: "kept", added: events.length, revision: revision + 1 };
    }
  }
  const told = await repeated(database, key, events);
  if (told.outcome === "kept") return told;
  if (told.revision !== revision) {
    await stepBack(lately, key, performance.now() - began);
    return told;
  }
  return appendSlowly(database, key, { events, revision });
}

/** Most doublings of the time that is waited: our choice, as long as some sixteen writes. */
const MOST_DOUBLINGS = 4;

/**
 * Lets others go first, the longer the more often they were: of many processes that write to one journal each wins now and then, and few write in vain. By chance,
 * so that they do not all come back at once (binary exponential backoff, as in IEEE 802.3; from memory).
 */
async function stepBack(lately: Lately, key: JournalKey, took: number): Promise<void> {
  const times = Math.min(lately.overtaken(key), MOST_DOUBLINGS);
  await new Promise((resolve) => setTimeout(resolve, Math.random() * took * 2 ** times));
}

/** The same for events that take more than going on from the standing. */
function appendSlowly(
  database: Database,
  key: JournalKey,
  { events, revision }: { readonly events: readonly JournalEvent[]; readonly revision: number },
): Promise<Appended> {
  return inTransaction(database, async (trx): Promise<Appended> => {
    const row = revision === 0 ? await begin(trx, key) : await claim(trx, key, revision);
    if (row === undefined) return repeated({ ...database, db: trx }, key, events);
    const added = await addEvents(trx, key, { row, events });
    return { outcome: "kept", added, revision: await settled(trx, key, { row, added }) };
  });
}

/** Adds events written elsewhere. */
export function merge(database: Database, key: JournalKey, values: readonly unknown[]): Promise<Merged> {
  const { events, problems } = checkEvents(key, values);
  if (events.length === 0) return Promise.resolve({ added: 0, known: 0, problems });
  return inTransaction(database, async (trx): Promise<Merged> => {
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

/** A repeated call, whose events are all in the journal, gets the answer `kept`; any other call was overtaken. One statement, so that both are of one moment. */
async function repeated(
  { db, tableNamed }: Pick<Database, "db" | "tableNamed">,
  key: JournalKey,
  events: readonly JournalEvent[],
): Promise<Appended> {
  const [student, curriculum] = [keyText(key.student), keyText(key.curriculum)];
  const digests = new Set(events.map((event) => digestOf(canonicalJson(event))));
  const none = sql`0`;
  let [there, revision] = [0, 0];
  for (const some of digests.size === 0 ? [[]] : inPieces([...digests], VALUES)) {
    const turns = sql.join([...new Set(events.map(({ turn }) => turn))]);
    const found = sql`(select count(*) from ${tableNamed("leeway_events")} as e where e.student = j.student
      and e.curriculum = j.curriculum and e.turn in (${turns}) and e.digest in (${sql.join(some)}))`;
    const { rows } = await sql<{ revision: number; found: number | string }>`
      select j.revision, ${some.length === 0 ? none : found} as found from ${tableNamed("leeway_journals")} as j
      where j.student = ${student} and j.curriculum = ${curriculum}`.execute(db);
    there += Number(rows[0]?.found ?? 0);
    revision = rows[0]?.revision ?? 0;
  }
  return { outcome: there === digests.size ? "kept" : "overtaken", revision, added: 0 };
}
