import { randomUUID } from "node:crypto";
import { type Kysely, type RawBuilder, sql } from "kysely";
import type { Worded } from "../../base/index.js";
import { storeProblem } from "../codes.js";
import { type StoreProblem, storeFailure } from "../failure.js";
import { say, sayProblem } from "../say.js";
import { STUDENT_TABLES, type Tables } from "../sql/tables.js";
import { codeOf } from "./problems.js";
import { relations } from "./relations.js";
import { clearStatistics, forbidStatistics, type TablesAt } from "./statistics.js";

/** Where the server keeps what its planner knows of tables. */
const STATISTICS = ["pg_statistic", "pg_statistic_ext_data"] as const;

/** What no statement reaches. */
const OUT_OF_REACH = [
  "store.write-ahead-log",
  "store.log-files",
  "store.server-copies",
  "store.crash-files",
  "store.freed-blocks",
] as const;

export interface TraceOptions extends TablesAt {
  readonly place: string;
  /** Milliseconds between looks whether they are done. */
  readonly pause: number;
}

/**
 * Removes what deleted rows left in the files of the store's tables and in the planner's statistics; gives where else it may be.
 *
 * Throws STORE_PLACE_UNUSABLE for a user who does not own the tables, and STORE_BUSY while a transaction that began before is at work: what
 * it may still read has to stay until it is done.
 */
export async function removeTraces(db: Kysely<Tables>, options: TraceOptions): Promise<readonly Worded[]> {
  const { place, schema } = options;
  if (!(await isOwner(db, schema))) throw notOwner(place);
  try {
    await forbidStatistics(db, options);
    const isCleared = await clearStatistics(db, options);
    const mark = await markOf(db);
    await rewriteTables(db, mark, options);
    const isRewritten = await rewriteStatistics(db, mark);
    return [...OUT_OF_REACH.map((key) => say(key)), ...statisticsLeft({ isCleared, isRewritten })];
  } catch (error) {
    // 55P03 lock_not_available: the lock was waited for as long as was asked. 57014 query_canceled: so it was, by `vacuum`.
    if (["55P03", "57014"].includes(codeOf(error))) throw busy(place, error);
    throw error;
  }
}

/**
 * Writes a table anew. A vacuum is no part of a transaction, so how long it waits for its lock cannot be set for it alone, and what is set on a connection would stay
 * with whoever has it next; it is called off instead, by a mark in its text, when it still waits.
 */
async function vacuum(db: Kysely<Tables>, table: RawBuilder<unknown>, { patience }: TraceOptions): Promise<void> {
  const name = `leeway ${randomUUID()}`;
  let isOver = false;
  const work = sql`vacuum (full) ${table} /* ${sql.raw(name)} */`.execute(db).finally(() => {
    isOver = true;
  });
  const timer = setInterval(
    () => {
      const late = sql`select pg_cancel_backend(pid) from pg_stat_activity
      where position(${name} in query) > 0 and wait_event_type = 'Lock' and pid <> pg_backend_pid()`;
      if (!isOver) late.execute(db).catch(() => undefined);
    },
    Math.max(1, patience),
  );
  try {
    await work;
  } finally {
    clearInterval(timer);
  }
}

/** A transaction number that everything deleted so far is older than, as text. */
async function markOf(on: Kysely<Tables>): Promise<string> {
  const { rows } = await sql<{ mark: string }>`select (txid_current() % 4294967296)::text as mark`.execute(on);
  return rows[0]!.mark;
}

/** Writes the tables and their indexes anew without deleted rows, until no earlier transaction keeps the server from leaving them out. */
async function rewriteTables(on: Kysely<Tables>, mark: string, options: TraceOptions): Promise<void> {
  const { schema } = options;
  const named = (table: string) => (schema === undefined ? sql.id(table) : sql.id(schema, table));
  for (let waited = 0; ; waited += options.pause) {
    for (const table of STUDENT_TABLES) await vacuum(on, named(table), options);
    if (await isFreeOf(on, relations(STUDENT_TABLES, schema), mark)) return;
    if (waited >= options.patience) throw busy(options.place);
    await new Promise((resolve) => setTimeout(resolve, options.pause));
  }
}

/** The same for the planner's statistics; gives whether it was done, as only the owner of the database may do it. */
async function rewriteStatistics(on: Kysely<Tables>, mark: string): Promise<boolean> {
  const before = await filesOf(on, STATISTICS);
  for (const table of STATISTICS) await sql`vacuum (full) ${sql.table(table)}`.execute(on);
  // Whoever may not do it is not refused: nothing is done.
  const after = await filesOf(on, STATISTICS);
  return after.every((file, i) => file !== before[i]) && (await isFreeOf(on, relations(STATISTICS), mark));
}

/**
 * Whether relations that were written anew hold nothing that was deleted before the mark. Rows an earlier transaction may still see are
 * copied without a word; but then the oldest transaction a relation knows, which is set as it is written anew, is older than the mark.
 */
async function isFreeOf(on: Kysely<Tables>, tables: RawBuilder<unknown>, mark: string): Promise<boolean> {
  const { rows } = await sql<{ newer: boolean }>`
    select bool_and(age(relfrozenxid) <= age(${mark}::xid)) as newer from pg_class where oid in ${tables}`.execute(on);
  return rows[0]!.newer;
}

/** The names of the files relations are in. */
async function filesOf(on: Kysely<Tables>, names: readonly string[]): Promise<readonly string[]> {
  const { rows } = await sql<{ file: string }>`
    select pg_relation_filenode(oid)::text as file from pg_class where oid in ${relations(names)} order by oid`.execute(
    on,
  );
  return rows.map(({ file }) => file);
}

async function isOwner(on: Kysely<Tables>, schema: string | undefined): Promise<boolean> {
  const { rows } = await sql<{ owner: boolean }>`
    select bool_and(pg_has_role(relowner, 'usage')) as owner from pg_class where oid in ${relations(STUDENT_TABLES, schema)}`.execute(
    on,
  );
  return rows[0]!.owner;
}

function statisticsLeft({
  isCleared,
  isRewritten,
}: {
  readonly isCleared: boolean;
  readonly isRewritten: boolean;
}): readonly Worded[] {
  const command = `VACUUM FULL ${STATISTICS.join(", ")}`;
  return [
    ...(isCleared ? [] : [say("store.statistics")]),
    ...(isRewritten ? [] : [say("store.statistics-files", { tables: STATISTICS[0], command })]),
  ];
}

function busy(place: string, cause?: unknown): StoreProblem {
  const message = sayProblem("store-problem.traces-in-tables", { place });
  const remedy = sayProblem("store-problem.traces-in-tables-remedy");
  return storeFailure(storeProblem("STORE_BUSY", message, {}, remedy), cause);
}

function notOwner(place: string): StoreProblem {
  const message = sayProblem("store-problem.traces-not-owner", { place });
  const remedy = sayProblem("store-problem.traces-not-owner-remedy");
  return storeFailure(storeProblem("STORE_PLACE_UNUSABLE", message, {}, remedy));
}
