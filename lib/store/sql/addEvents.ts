import { canonicalJson, fold, summarise } from "../../progress/index.js";
import type { JournalEvent } from "../../schema/index.js";
import type { JournalKey } from "../model.js";
import { orderEvents } from "../orderEvents.js";
import type { Trx } from "./database.js";
import { digestOf } from "./digest.js";
import { eventRow } from "./journalWrite.js";
import { keyText, nameOf } from "./keyText.js";
import { eventPages, eventsInOrder } from "./readEvents.js";
import { type ChangedDrill, drillOf, inPieces, standingColumns, standingOf, writeDrills } from "./standingRows.js";
import { type Amount, touchedBy } from "./summaryParts.js";
import { readSummary, writeSummary } from "./summaryRows.js";
import type { DrillRow, JournalRow } from "./tables.js";

/** Values per statement: our choice, far below the limits of databases. */
const VALUES = 500;

/**
 * Inserts the events that are not in the journal yet and updates the standing; gives the number of inserted events. The caller must hold the
 * lock on the row of the journal, so that nobody else writes to it.
 */
export async function addEvents(
  trx: Trx,
  key: JournalKey,
  { row, events }: { readonly row: JournalRow; readonly events: readonly JournalEvent[] },
): Promise<number> {
  const given = new Map(events.map((event) => [digestOf(canonicalJson(event)), event]));
  const { ids, digests } = await known(trx, key, [...given.values()]);
  const fresh = [...given].filter(([digest]) => !digests.has(digest));
  if (fresh.length === 0) return 0;
  await insert(trx, key, fresh);
  const last = row.events === 0 ? undefined : { turn: row.last_turn, at: row.last_at, id: row.last_id };
  const ordered = orderEvents(
    fresh.map(([, event]) => event),
    last,
    (id) => ids.has(id),
  );
  const amount =
    ordered.follows && row.counted !== null
      ? await goOn(trx, key, { row, events: ordered.events })
      : await foldAgain(trx, key);
  await writeSummary(trx, key, amount);
  const end = ordered.follows ? ordered.events.at(-1)! : await lastEvent(trx, key);
  await at(trx.updateTable("leeway_journals"), key)
    .set({
      events: row.events + fresh.length,
      last_turn: end.turn,
      last_at: end.at,
      last_id: end.id,
      ...standingColumns(amount.standing),
    })
    .execute();
  return fresh.length;
}

/** Restricts a statement to the rows of one journal. */
export function at<Query extends { where(column: "student" | "curriculum", is: "=", value: string): Query }>(
  query: Query,
  key: JournalKey,
): Query {
  return query.where("student", "=", keyText(key.student)).where("curriculum", "=", keyText(key.curriculum));
}

/** The ids of these events that are in the journal, and the digests of the events with these ids. */
async function known(
  trx: Trx,
  key: JournalKey,
  events: readonly JournalEvent[],
): Promise<{ readonly ids: ReadonlySet<string>; readonly digests: ReadonlySet<string> }> {
  const ids = new Set<string>();
  const digests = new Set<string>();
  const asked = [...new Map(events.map(({ id }) => [keyText(id), id]))];
  for (const some of inPieces(asked, VALUES)) {
    const rows = await at(trx.selectFrom("leeway_events"), key)
      .select(["id", "digest"])
      .where(
        "id",
        "in",
        some.map(([text]) => text),
      )
      .execute();
    const names = new Map(some);
    for (const { id, digest } of rows) {
      ids.add(names.get(id)!);
      digests.add(digest);
    }
  }
  return { ids, digests };
}

async function insert(trx: Trx, key: JournalKey, fresh: readonly (readonly [string, JournalEvent])[]): Promise<void> {
  const rows = fresh.map(([, event]) => eventRow(key, event));
  for (const some of inPieces(rows, VALUES)) await trx.insertInto("leeway_events").values(some).execute();
}

/** Continues from the kept standing: reads and writes only the drills of the events. */
async function goOn(
  trx: Trx,
  key: JournalKey,
  { row, events }: { readonly row: JournalRow; readonly events: readonly JournalEvent[] },
): Promise<Amount> {
  const named = new Set(events.flatMap((event) => ("drill" in event ? [event.drill] : [])));
  // A new edition may change every drill.
  const isWide = events.some(({ kind }) => kind === "edition changed");
  const heads = await at(trx.selectFrom("leeway_drills"), key)
    .select(["place", "drill", "head"])
    .orderBy("place")
    .execute();
  const rungs = await rungsOf(trx, key, isWide ? heads : heads.filter(({ drill }) => named.has(nameOf(drill))));
  const drills = heads.map(({ place, head }) => drillOf(head, rungs.get(place) ?? ""));
  const before = standingOf(key, row, drills)!;
  const folding = fold(events, { after: before });
  const after = folding.standing!;
  const changed = after.drills.flatMap((drill, place): readonly ChangedDrill[] =>
    isWide ? [{ place, drill }] : drill === drills[place] ? [] : [{ place, drill, before: drills[place] }],
  );
  // After a renaming there may be fewer drills.
  if (isWide) await deleteDrills(trx, key);
  await writeDrills(trx, key, changed);
  const touched = touchedBy(
    events,
    changed.map(({ drill }) => drill.drill),
  );
  const summary = summarise(events, folding, { before: await readSummary(trx, key), touched: touched.drills });
  return { standing: after, summary, ...(isWide ? {} : { touched }) };
}

async function rungsOf(
  trx: Trx,
  key: JournalKey,
  wanted: readonly Pick<DrillRow, "place">[],
): Promise<ReadonlyMap<number, string>> {
  const found = new Map<number, string>();
  for (const some of inPieces(wanted, VALUES)) {
    const rows = await at(trx.selectFrom("leeway_rungs"), key)
      .select(["place", "body"])
      .where(
        "place",
        "in",
        some.map(({ place }) => place),
      )
      .orderBy("place")
      .orderBy("rung")
      .orderBy("number")
      .execute();
    for (const { place, body } of rows) {
      const before = found.get(place);
      found.set(place, before === undefined ? body : `${before},${body}`);
    }
  }
  return found;
}

async function deleteDrills(trx: Trx, key: JournalKey): Promise<void> {
  for (const table of ["leeway_rungs", "leeway_drills"] as const) await at(trx.deleteFrom(table), key).execute();
}

/** Folds the whole journal again and replaces the rows of its drills. The caller updates the row of the journal, and its summary. */
export async function foldAgain(trx: Trx, key: JournalKey): Promise<Amount> {
  const events: JournalEvent[] = [];
  for await (const event of eventsInOrder(eventPages(trx, key))) events.push(event);
  const folding = fold(events, { of: key });
  const { standing } = folding;
  await deleteDrills(trx, key);
  await writeDrills(trx, key, standing?.drills.map((drill, place) => ({ place, drill })) ?? []);
  return { standing, summary: summarise(events, folding) };
}

/** The last event in the order of the journal, which must not be empty. */
export async function lastEvent(trx: Trx, key: JournalKey): Promise<JournalEvent> {
  const turns = at(trx.selectFrom("leeway_events"), key).select((row) => row.fn.max("turn").as("turn"));
  const { turn } = await turns.executeTakeFirstOrThrow();
  const rows = await at(trx.selectFrom("leeway_events"), key).selectAll().where("turn", "=", turn!).execute();
  let last: JournalEvent | undefined;
  for await (const event of eventsInOrder(once(rows))) last = event;
  return last!;
}

async function* once<T>(value: T): AsyncIterable<T> {
  yield value;
}
