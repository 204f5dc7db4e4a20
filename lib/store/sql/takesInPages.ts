import { sql } from "kysely";
import { at, foldAgain } from "./addEvents.js";
import type { Database, Trx } from "./database.js";
import { nameOf } from "./keyText.js";
import { standingColumns } from "./standingRows.js";
import { writeSummary } from "./summaryRows.js";

/**
 * Makes the tables of standings and summaries anew, with a row for each rung and its pages, and for each part of a summary, so that what a take writes does not grow with
 * what was played before; and works out of the events of every journal what is in them.
 */
export async function takesInPages(trx: Trx, { nameType, clustered }: Database): Promise<void> {
  const name = sql.raw(nameType);
  const end = sql.raw(clustered);
  const owner = sql`student ${name} not null, curriculum ${name} not null`;
  const journal = sql`foreign key (student, curriculum) references leeway_journals (student, curriculum) on delete cascade`;
  for (const table of ["leeway_drills", "leeway_summaries"]) await sql`drop table ${sql.table(table)}`.execute(trx);
  await sql`create table leeway_drills (${owner}, place integer not null, drill ${name} not null, head text not null,
    primary key (student, curriculum, place), ${journal}) ${end}`.execute(trx);
  await sql`create table leeway_rungs (${owner}, place integer not null, rung integer not null, number integer not null,
    body text not null, primary key (student, curriculum, place, rung, number), ${journal}) ${end}`.execute(trx);
  await sql`create table leeway_summaries (${owner}, part ${name} not null, body text not null,
    primary key (student, curriculum, part), ${journal}) ${end}`.execute(trx);
  const journals = await trx.selectFrom("leeway_journals").select(["student", "curriculum"]).execute();
  for (const row of journals) {
    const key = { student: nameOf(row.student), curriculum: nameOf(row.curriculum) };
    const amount = await foldAgain(trx, key);
    await writeSummary(trx, key, amount);
    await at(trx.updateTable("leeway_journals"), key).set(standingColumns(amount.standing)).execute();
  }
}
