import { canonicalJson, currentEvent } from "../../progress/index.js";
import type { JournalKey } from "../model.js";
import { at } from "./addEvents.js";
import type { Trx } from "./database.js";
import { digestOf } from "./digest.js";
import { nameOf } from "./keyText.js";
import { eventPages } from "./readEvents.js";
import { inPieces } from "./standingRows.js";
import type { EventRow } from "./tables.js";

/** Events per statement: our choice, far below the limits of databases on values in one. */
const ROWS = 500;

/**
 * Rewrites the events of every journal as this version writes them, with the digests of these texts. Ids, turns and revisions stay; the standings are worked out
 * anew by `takesInPages`. The digest is that of the present form because `merge` compares digests of what it has read, which is in the present form
 * whatever version a device sent. An event that is not what was written stays as it was found, for `verify` to name.
 */
export async function rewriteEvents(trx: Trx): Promise<void> {
  const journals = await trx.selectFrom("leeway_journals").select(["student", "curriculum"]).execute();
  for (const { student, curriculum } of journals)
    await rewriteJournal(trx, { student: nameOf(student), curriculum: nameOf(curriculum) });
}

async function rewriteJournal(trx: Trx, key: JournalKey): Promise<void> {
  let doubled = 0;
  for await (const page of eventPages(trx, key)) {
    for (const rows of inPieces(page, ROWS)) doubled += await rewriteRows(trx, key, rows);
  }
  if (doubled === 0) return;
  await at(trx.updateTable("leeway_journals"), key)
    .set((row) => ({ events: row("events", "-", doubled) }))
    .execute();
}

/** Rewrites some rows, in order of turn; gives how many of them the journal had in the present form too. */
async function rewriteRows(trx: Trx, key: JournalKey, rows: readonly EventRow[]): Promise<number> {
  const former = rows.flatMap((row) => {
    const body = presentBody(row);
    return body === undefined ? [] : [{ row, present: { ...row, body, digest: digestOf(body) } }];
  });
  const [first, last] = [former.at(0)?.row.turn, former.at(-1)?.row.turn];
  if (first === undefined || last === undefined) return 0;
  await at(trx.deleteFrom("leeway_events"), key)
    .where("turn", ">=", first)
    .where("turn", "<=", last)
    .where(
      "digest",
      "in",
      former.map(({ row }) => row.digest),
    )
    .execute();
  const written = await trx
    .insertInto("leeway_events")
    .values(former.map(({ present }) => present))
    .onConflict((conflict) => conflict.doNothing())
    .executeTakeFirst();
  return former.length - Number(written.numInsertedOrUpdatedRows ?? 0);
}

/** The text of an event as this version writes it; `undefined` when it is written so already, or is not what was written. */
function presentBody({ body, digest }: EventRow): string | undefined {
  if (digestOf(body) !== digest) return undefined;
  try {
    const present = canonicalJson(currentEvent(JSON.parse(body)));
    return present === body ? undefined : present;
  } catch {
    return undefined;
  }
}
