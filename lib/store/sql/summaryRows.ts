import { sql } from "kysely";
import { canonicalJson, type JournalSummary } from "../../progress/index.js";
import { byName } from "../byName.js";
import type { JournalKey, KeptSummary } from "../model.js";
import type { Database, Trx } from "./database.js";
import { keyText, nameOf } from "./keyText.js";
import { inPieces } from "./standingRows.js";
import { type Amount, summaryOfParts, summaryRows } from "./summaryParts.js";
import type { SummaryRow } from "./tables.js";

/** Names per statement: our choice, far below the limits of databases on values in one. */
const NAMES = 500;

/** Makes the tables of what is worked out of journals beside their standings; `takesInPages` works them out. */
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
}

export async function readSummary(db: Trx | Database["db"], key: JournalKey): Promise<JournalSummary | undefined> {
  const rows = await db
    .selectFrom("leeway_summaries")
    .select(["part", "body"])
    .where("student", "=", keyText(key.student))
    .where("curriculum", "=", keyText(key.curriculum))
    .execute();
  return summaryOfParts(rows.map(parsed));
}

/** Writes a summary, or what was touched of it, in the place of what was there; none while nobody is enrolled. */
export async function writeSummary(trx: Trx, key: JournalKey, { standing, summary, touched }: Amount): Promise<void> {
  const [student, curriculum] = [keyText(key.student), keyText(key.curriculum)];
  if (touched === undefined)
    await trx
      .deleteFrom("leeway_summaries")
      .where("student", "=", student)
      .where("curriculum", "=", curriculum)
      .execute();
  if (summary === undefined || standing === undefined) return;
  for (const some of inPieces(summaryRows(key, { summary, standing, ...(touched && { touched }) }), NAMES))
    await trx
      .insertInto("leeway_summaries")
      .values(some)
      .onConflict((conflict) =>
        conflict.columns(["student", "curriculum", "part"]).doUpdateSet((row) => ({ body: row.ref("excluded.body") })),
      )
      .execute();
}

function parsed({ part, body }: Pick<SummaryRow, "part" | "body">): { readonly part: string; readonly body: unknown } {
  return { part: nameOf(part), body: JSON.parse(body) };
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
      .select(["student", "part", "body"])
      .where("student", "in", some)
      .where("curriculum", "=", keyText(curriculum))
      .execute();
    const of = new Map<string, ReturnType<typeof parsed>[]>();
    for (const row of rows) {
      const parts = of.get(row.student) ?? [];
      parts.push(parsed(row));
      of.set(row.student, parts);
    }
    for (const [student, parts] of of) {
      const summary = summaryOfParts(parts);
      if (summary !== undefined) found.push({ student: nameOf(student), summary });
    }
  }
  return found.sort((a, b) => byName({ ...a, curriculum }, { ...b, curriculum }));
}
