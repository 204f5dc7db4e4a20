import { type Kysely, sql } from "kysely";
import type { Worded } from "../../base/index.js";
import { storeProblem } from "../codes.js";
import { type StoreProblem, storeFailure } from "../failure.js";
import { say, sayProblem } from "../say.js";
import { STUDENT_TABLES, type Tables } from "../sql/tables.js";
import { codeOf } from "./problems.js";
import { relations } from "./relations.js";
import { clearStatistics, forbidStatistics } from "./statistics.js";

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

export interface TraceOptions {
  readonly place: string;
  /** Milliseconds for which others that use the tables are waited for. */
  readonly patience: number;
  /** Milliseconds between looks whether they are done. */
  readonly pause: number;
}

/**
 * Removes what deleted rows left in the files of the store's tables and in the planner's statistics; gives where else it may be.
 *
 * Throws STORE_PLACE_UNUSABLE for a user who does not own the tables, and STORE_BUSY while a transaction that began before is at work: what
 * it may still read has to stay until it is done.
 */
export function removeTraces(db: Kysely<Tables>, options: TraceOptions): Promise<readonly Worded[]> {
  return db.connection().execute(async (on) => {
    if (!(await isOwner(on))) throw notOwner(options.place);
    await sql`set lock_timeout = ${sql.lit(Math.max(1, options.patience))}`.execute(on);
    try {
      await forbidStatistics(on);
      const isCleared = await clearStatistics(on);
      const mark = await markOf(on);
      await rewriteTables(on, mark, options);
      const isRewritten = await rewriteStatistics(on, mark);
      return [...OUT_OF_REACH.map((key) => say(key)), ...statisticsLeft({ isCleared, isRewritten })];
    } catch (error) {
      // 55P03 lock_not_available: the lock was waited for as long as was asked.
      if (codeOf(error) === "55P03") throw busy(options.place, error);
      throw error;
    } finally {
      // A connection that was cut takes its settings with it.
      await sql`reset lock_timeout`.execute(on).catch(() => undefined);
    }
  });
}

/** A transaction number that everything deleted so far is older than, as text. */
async function markOf(on: Kysely<Tables>): Promise<string> {
  const { rows } = await sql<{ mark: string }>`select (txid_current() % 4294967296)::text as mark`.execute(on);
  return rows[0]!.mark;
}

/** Writes the tables and their indexes anew without deleted rows, until no earlier transaction keeps the server from leaving them out. */
async function rewriteTables(on: Kysely<Tables>, mark: string, options: TraceOptions): Promise<void> {
  for (let waited = 0; ; waited += options.pause) {
    for (const table of STUDENT_TABLES) await sql`vacuum (full) ${sql.table(table)}`.execute(on);
    if (await isFreeOf(on, STUDENT_TABLES, mark)) return;
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
  return after.every((file, i) => file !== before[i]) && (await isFreeOf(on, STATISTICS, mark));
}

/**
 * Whether relations that were written anew hold nothing that was deleted before the mark. Rows an earlier transaction may still see are
 * copied without a word; but then the oldest transaction a relation knows, which is set as it is written anew, is older than the mark.
 */
async function isFreeOf(on: Kysely<Tables>, names: readonly string[], mark: string): Promise<boolean> {
  const { rows } = await sql<{ newer: boolean }>`
    select bool_and(age(relfrozenxid) <= age(${mark}::xid)) as newer from pg_class where oid in ${relations(names)}`.execute(
    on,
  );
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

async function isOwner(on: Kysely<Tables>): Promise<boolean> {
  const { rows } = await sql<{ owner: boolean }>`
    select bool_and(pg_has_role(relowner, 'usage')) as owner from pg_class where oid in ${relations(STUDENT_TABLES)}`.execute(
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
