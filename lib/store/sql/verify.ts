import { compareEvents, fold, readEvent, standingText, summarise } from "../../progress/index.js";
import type { JournalEvent } from "../../schema/index.js";
import { storeProblem } from "../codes.js";
import type { JournalKey } from "../model.js";
import type { Problem } from "../problem.js";
import { sayProblem } from "../say.js";
import { at, foldAgain, lastEvent } from "./addEvents.js";
import { type Database, inTransaction } from "./database.js";
import { digestOf } from "./digest.js";
import { keyText } from "./keyText.js";
import { open } from "./read.js";
import { bodyOf, eventPages } from "./readEvents.js";
import { retry } from "./retry.js";
import { standingColumns } from "./standingRows.js";
import { readSummary, summaryText, writeSummary } from "./summaryRows.js";
import type { EventRow } from "./tables.js";

/** Whether a kept event is unchanged and belongs to this journal. */
function isIntact(key: JournalKey, row: EventRow): boolean {
  if (digestOf(row.body) !== row.digest) return false;
  const event = readEvent(bodyOf(row));
  if ("code" in event) return false;
  const { student, curriculum, turn, id } = event;
  return student === key.student && curriculum === key.curriculum && turn === row.turn && keyText(id) === row.id;
}

/** The problems of one journal. */
export async function* verifyJournal(database: Database, key: JournalKey): AsyncIterable<Problem> {
  const whose = { student: key.student, course: key.curriculum };
  // When another process writes to the journal during the check, it is read again.
  for (;;) {
    const before = await retry(database, () => open(database, key));
    if (before === undefined) return;
    const summary = await retry(database, () => readSummary(database.db, key));
    const events: JournalEvent[] = [];
    const problems: Problem[] = [];
    let count = 0;
    for await (const page of eventPages(database.db, key)) {
      for (const row of page) {
        count++;
        if (isIntact(key, row)) events.push(bodyOf(row) as JournalEvent);
        else {
          const event = { id: row.id, turn: String(row.turn), ...whose };
          const message = sayProblem("store-problem.event-altered", event);
          problems.push(storeProblem("EVENT_ALTERED", message, {}, sayProblem("store-problem.repair-remedy")));
        }
      }
    }
    const after = await retry(database, () => open(database, key));
    if (after?.revision !== before.revision) continue;
    if (count !== before.events) {
      const message = sayProblem("store-problem.events-missing", { ...whose, found: count, written: before.events });
      const remedy = sayProblem("store-problem.events-missing-remedy");
      problems.push(storeProblem("EVENTS_MISSING", message, {}, remedy));
    }
    events.sort(compareEvents);
    const amount = fold(events, { of: key });
    const [kept, due] = [before.standing, amount.standing].map((each) =>
      each === undefined ? "" : standingText(each),
    );
    if (kept !== due || summaryText(summary) !== summaryText(summarise(events, amount))) {
      const message = sayProblem("store-problem.standing-stale", whose);
      problems.push(storeProblem("STANDING_STALE", message, {}, sayProblem("store-problem.repair-remedy")));
    }
    yield* problems;
    return;
  }
}

/** Sets damaged events aside and computes count, last event and standing again; gives the number of events set aside. */
export function repair(database: Database, key: JournalKey): Promise<number> {
  return inTransaction(database, async (trx) => {
    const held = await at(trx.updateTable("leeway_journals"), key)
      .set((row) => ({ revision: row("revision", "+", 1) }))
      .executeTakeFirst();
    if (held.numUpdatedRows === 0n) return 0;
    const damaged: EventRow[] = [];
    let count = 0;
    for await (const page of eventPages(trx, key)) {
      count += page.length;
      damaged.push(...page.filter((row) => !isIntact(key, row)));
    }
    for (const { student, curriculum, turn, digest, body } of damaged) {
      await trx
        .insertInto("leeway_set_aside")
        .values({ student, curriculum, digest: digestOf(body), body })
        .onConflict((conflict) => conflict.doNothing())
        .execute();
      await at(trx.deleteFrom("leeway_events"), key).where("turn", "=", turn).where("digest", "=", digest).execute();
    }
    const events = count - damaged.length;
    const amount = await foldAgain(trx, key);
    await writeSummary(trx, key, amount);
    const last = events === 0 ? { turn: 0, at: "", id: "" } : await lastEvent(trx, key);
    await at(trx.updateTable("leeway_journals"), key)
      .set({ events, last_turn: last.turn, last_at: last.at, last_id: last.id, ...standingColumns(amount.standing) })
      .execute();
    return damaged.length;
  });
}
