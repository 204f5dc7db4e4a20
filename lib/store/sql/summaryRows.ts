import { sql } from "kysely";
import { canonicalJson, fold, type JournalSummary, summarise } from "../../progress/index.js";
import type { JournalEvent } from "../../schema/index.js";
import { byName } from "../byName.js";
import type { JournalKey, KeptSummary } from "../model.js";
import type { Database, Trx } from "./database.js";
import { keyText, nameOf } from "./keyText.js";
import { eventPages, eventsInOrder } from "./readEvents.js";
import { inPieces } from "./standingRows.js";

/** Names per statement: our choice, far below the limits of databases on values in one. */
const NAMES = 500;

/** Makes the tables of what is worked out of journals beside their standings, and works the summaries of all journals out. */
export async function summariesAndLearnt(trx: Trx, { nameType, clustered }: Database): Promise<void> {
  const name = sql.raw(nameType);
  const end = sql.raw(clustered);
  const journal = sql`primary key (student, curriculum),
    foreign key (student, curriculum) references leeway_journals (student, curriculum) on delete cascade`;
  await sql`create table leeway_summaries (
    student ${name} not null, curriculum ${name} not null, body text not null, ${journal}) ${end}`.execute(trx);
  await sql`create table leeway_learnt (
    student ${name} not null, curriculum ${name} not null, basis text not null, takes integer not null, body text not null,
    ${journal}) ${end}`.execute(trx);
  const journals = await trx.selectFrom("leeway_journals").select(["student", "curriculum"]).execute();
  for (const row of journals) {
    const key = { student: nameOf(row.student), curriculum: nameOf(row.curriculum) };
    const events: JournalEvent[] = [];
    for await (const event of eventsInOrder(eventPages(trx, key))) events.push(event);
    await writeSummary(trx, key, summarise(events, fold(events, { of: key })));
  }
}

export async function readSummary(db: Trx | Database["db"], key: JournalKey): Promise<JournalSummary | undefined> {
  const row = await db
    .selectFrom("leeway_summaries")
    .select("body")
    .where("student", "=", keyText(key.student))
    .where("curriculum", "=", keyText(key.curriculum))
    .executeTakeFirst();
  return row === undefined ? undefined : (JSON.parse(row.body) as JournalSummary);
}

/** Writes a summary in the place of the one before; none while nobody is enrolled. */
export async function writeSummary(trx: Trx, key: JournalKey, summary: JournalSummary | undefined): Promise<void> {
  const [student, curriculum] = [keyText(key.student), keyText(key.curriculum)];
  if (summary === undefined) {
    await trx
      .deleteFrom("leeway_summaries")
      .where("student", "=", student)
      .where("curriculum", "=", curriculum)
      .execute();
    return;
  }
  await trx
    .insertInto("leeway_summaries")
    .values({ student, curriculum, body: summaryText(summary) })
    .onConflict((conflict) =>
      conflict.columns(["student", "curriculum"]).doUpdateSet((row) => ({ body: row.ref("excluded.body") })),
    )
    .execute();
}

/** A summary as text: equal summaries give equal texts. */
export function summaryText(summary: JournalSummary | undefined): string {
  return summary === undefined ? "" : canonicalJson(summary);
}

/** Summaries of these students in a course, in the order of names; one statement for some hundred. */
export async function summaries(
  { db }: Database,
  { curriculum, students }: { readonly curriculum: string; readonly students: readonly string[] },
): Promise<readonly KeptSummary[]> {
  const found: KeptSummary[] = [];
  for (const some of inPieces([...new Set(students)].map(keyText), NAMES)) {
    const rows = await db
      .selectFrom("leeway_summaries")
      .select(["student", "body"])
      .where("student", "in", some)
      .where("curriculum", "=", keyText(curriculum))
      .execute();
    for (const { student, body } of rows)
      found.push({ student: nameOf(student), summary: JSON.parse(body) as JournalSummary });
  }
  return found.sort((a, b) => byName({ ...a, curriculum }, { ...b, curriculum }));
}
