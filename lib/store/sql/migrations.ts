import { type Kysely, sql } from "kysely";
import { storeProblem } from "../codes.js";
import { storeFailure } from "../failure.js";
import { sayProblem } from "../say.js";
import { rewriteEvents } from "./currentEvents.js";
import { type Database, inTransaction, type Trx } from "./database.js";
import { retry } from "./retry.js";
import { endsOfInvitations, peopleAndClasses } from "./schoolTables.js";
import { summariesAndLearnt } from "./summaryRows.js";
import type { Tables } from "./tables.js";
import { takesInPages } from "./takesInPages.js";

/** Migrates the tables from one version to the next. */
type Step = (trx: Trx, database: Database) => Promise<void>;

/** Step n migrates from version n to n + 1. Released steps are never changed. */
const STEPS: readonly Step[] = [
  journalsAndEvents,
  coursesAndSetAside,
  rewriteEvents,
  peopleAndClasses,
  endsOfInvitations,
  summariesAndLearnt,
  takesInPages,
];

/** The version of the tables in this version of leeway. */
export const TABLES_VERSION: number = STEPS.length;

/**
 * Makes the tables where there are none, and brings those of an older version up to date when that is `asked`, after a backup; otherwise they are refused (STORE_VERSION_OLDER).
 * A store of a newer version always is (STORE_VERSION_NEWER). `upTo` is the version to stop at, for tests of later steps.
 */
export async function migrate(
  database: Database,
  { asked = false, upTo = TABLES_VERSION }: { readonly asked?: boolean; readonly upTo?: number } = {},
): Promise<void> {
  const found = await retry(database, () => tablesVersion(database, database.db));
  if (found > TABLES_VERSION) {
    const message = sayProblem("store-problem.store-version-newer", { found, known: TABLES_VERSION });
    const remedy = sayProblem("store-problem.store-version-newer-remedy");
    throw storeFailure(storeProblem("STORE_VERSION_NEWER", message, {}, remedy));
  }
  if (found >= upTo) return;
  requireAsked(database, { asked, found });
  if (found > 0) await retry(database, () => database.backUp(found));
  await retry(database, () =>
    inTransaction(database, async (trx) => {
      await database.lockMigrations(trx);
      // Another process may have made or migrated the tables in the meantime.
      const first = await tablesVersion(database, trx);
      if (first < upTo) requireAsked(database, { asked, found: first });
      for (let version = first; version < upTo; version++) {
        await STEPS[version]!(trx, database);
        await setVersion(trx, version + 1);
      }
    }),
  );
}

function requireAsked(
  { place }: Database,
  { asked, found }: { readonly asked: boolean; readonly found: number },
): void {
  if (asked || found === 0) return;
  const message = sayProblem("store-problem.store-version-older", { place, found, known: TABLES_VERSION });
  const remedy = sayProblem("store-problem.store-version-older-remedy", {
    command: "leeway store migrate",
    option: "migrate",
  });
  throw storeFailure(storeProblem("STORE_VERSION_OLDER", message, {}, remedy));
}

/** The version of the existing tables; 0 when there are none. */
async function tablesVersion(database: Database, db: Kysely<Tables>): Promise<number> {
  if (!(await database.hasTables(db))) return 0;
  const row = await db.selectFrom("leeway_store").select("value").where("name", "=", "shape").executeTakeFirst();
  return Number(row?.value ?? 0);
}

async function setVersion(trx: Trx, version: number): Promise<void> {
  await trx
    .insertInto("leeway_store")
    .values({ name: "shape", value: String(version) })
    .onConflict((conflict) => conflict.column("name").doUpdateSet({ value: String(version) }))
    .execute();
}

async function journalsAndEvents(trx: Trx, { nameType, clustered }: Database): Promise<void> {
  const name = sql.raw(nameType);
  const end = sql.raw(clustered);
  await sql`create table leeway_store (name ${name} primary key, value text not null) ${end}`.execute(trx);
  await sql`create table leeway_journals (
    student ${name} not null, curriculum ${name} not null, revision integer not null, events integer not null,
    last_turn integer not null, last_at text not null, last_id text not null,
    edition text, latest text, counted integer,
    primary key (student, curriculum)) ${end}`.execute(trx);
  await sql`create table leeway_events (
    student ${name} not null, curriculum ${name} not null, turn integer not null, digest ${name} not null,
    id ${name} not null, body text not null,
    primary key (student, curriculum, turn, digest),
    foreign key (student, curriculum) references leeway_journals (student, curriculum) on delete cascade) ${end}`.execute(
    trx,
  );
  await sql`create index leeway_events_by_id on leeway_events (student, curriculum, id)`.execute(trx);
  await sql`create table leeway_drills (
    student ${name} not null, curriculum ${name} not null, place integer not null, drill ${name} not null,
    head text not null, rungs text not null,
    primary key (student, curriculum, place),
    foreign key (student, curriculum) references leeway_journals (student, curriculum) on delete cascade)`.execute(trx);
}

async function coursesAndSetAside(trx: Trx, { nameType }: Database): Promise<void> {
  const name = sql.raw(nameType);
  await sql`create table leeway_courses (
    curriculum ${name} not null, edition ${name} not null, number integer not null, digest text not null,
    file text not null, text text not null, files text not null,
    primary key (curriculum, edition, number))`.execute(trx);
  await sql`create table leeway_set_aside (
    student ${name} not null, curriculum ${name} not null, digest ${name} not null, body text not null,
    primary key (student, curriculum, digest),
    foreign key (student, curriculum) references leeway_journals (student, curriculum) on delete cascade)`.execute(trx);
}
