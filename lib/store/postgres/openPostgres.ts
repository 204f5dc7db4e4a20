import { Kysely, PostgresDialect, sql } from "kysely";
import { failure, success } from "../../base/index.js";
import { storeProblem } from "../codes.js";
import { isStoreProblem, storeFailure } from "../failure.js";
import type { Store } from "../model.js";
import type { Result } from "../problem.js";
import { sayProblem } from "../say.js";
import type { Database } from "../sql/database.js";
import { migrate } from "../sql/migrations.js";
import { retry } from "../sql/retry.js";
import { sqlStore } from "../sql/sqlStore.js";
import type { Tables } from "../sql/tables.js";
import { connectionsTo, type GivenPool, placeNamed } from "./pool.js";
import { isTransient, postgresProblem } from "./problems.js";
import { forbidStatistics } from "./statistics.js";
import { removeTraces } from "./traces.js";
import { durable, writeAtOnce } from "./writeAtOnce.js";

export interface PostgresOptions {
  /** Whether to create the tables when they do not exist. */
  readonly create: boolean;
  /** Whether tables of an older version are brought up to date first; a backup is made by the administrator. Otherwise they are refused. */
  readonly migrate?: boolean;
  /** The schema the tables are in, which is made with them; when left out, the first of the user's search path. */
  readonly schema?: string;
  /** Connections used at once; our choice when left out: 8. Those of a pool that was given are as many as it has. */
  readonly connections?: number;
  /** Milliseconds for which a server that is gone or restarting is tried again; our choice when left out: 10 000. */
  readonly patience?: number;
}

/** Milliseconds between attempts; our choice: a server that restarts takes some tenths of a second at least. */
const PAUSE = 100;

/** Key of the advisory lock under which tables are migrated: any number that no other program uses. "leew" in ASCII. */
const MIGRATION_LOCK = 0x6c656577;

/**
 * Opens the store in a PostgreSQL database, at an address or by the connections of an application (a `Pool` of `pg`, which stays open when the store is closed). Tables of an older
 * version are refused unless `migrate` is set; `leeway store migrate` sets it. Every statement stands for itself and nothing is set on a connection, so a pooler may stand between.
 *
 * Problems: STORE_ADDRESS_UNREADABLE, STORE_NOT_FOUND (no tables, and not to be made), STORE_UNREACHABLE, STORE_PLACE_UNUSABLE, STORE_VERSION_OLDER, STORE_VERSION_NEWER, STORE_FULL,
 * STORE_READ_ONLY, STORE_DRIVER_MISSING without the optional package `pg`, STORE_FAILED.
 * @example
 * const store = await openPostgres("postgresql://school@localhost/leeway", { create: true });
 */
export async function openPostgres(at: string | GivenPool, options: PostgresOptions): Promise<Result<Store>> {
  let database: Database | undefined;
  try {
    database = await postgresDatabase(at, options);
    const { db, hasTables, patience } = database;
    const isThere = await retry(database, () => hasTables(db));
    if (!options.create && !isThere) {
      const message = sayProblem("store-problem.store-not-found-in-database", { place: database.place });
      const remedy = sayProblem("store-problem.store-not-found-remedy");
      throw storeFailure(storeProblem("STORE_NOT_FOUND", message, {}, remedy));
    }
    await migrate(database, { asked: options.migrate === true });
    if (!isThere || options.migrate)
      await retry(database, () => forbidStatistics(db, { schema: options.schema, patience }));
    const store = sqlStore(database);
    const isReplica = (await retry(database, () => replay(db))) !== undefined;
    return success(isReplica ? { ...store, followedUntil: async () => (await replay(db))?.until } : store);
  } catch (error) {
    await database?.close();
    return failure(isStoreProblem(error) ? error.problem : postgresProblem(placeNamed(at), error));
  }
}

/** How far a replica has followed its server; `undefined` for a server that follows none. */
async function replay(db: Kysely<Tables>): Promise<{ readonly until: string | undefined } | undefined> {
  const { rows } = await sql<{ follows: boolean; until: Date | null }>`
    select pg_is_in_recovery() as follows, pg_last_xact_replay_timestamp() as until`.execute(db);
  const { follows, until } = rows[0]!;
  return follows ? { until: until?.toISOString() } : undefined;
}

/** The PostgreSQL part of `Database`. */
export async function postgresDatabase(
  at: string | GivenPool,
  { connections = 8, patience = 10_000, schema }: PostgresOptions,
): Promise<Database> {
  const { pool, place } = await connectionsTo(at, connections);
  const bare = new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) });
  const db = schema === undefined ? bare : bare.withSchema(schema);
  const tableNamed: Database["tableNamed"] = (name) => (schema === undefined ? sql.id(name) : sql.id(schema, name));
  return {
    db,
    place,
    tableNamed,
    begun: async (trx) => {
      await durable.execute(trx);
    },
    write: (all) => writeAtOnce(db, tableNamed, all),
    nameType: `text collate "C"`,
    clustered: "",
    patience,
    pause: PAUSE,
    problemOf: (error) => postgresProblem(place, error),
    isTransient,
    hasTables: async (on) => {
      // to_regclass() takes no lock and may answer from before another process made the tables; reading the catalogue does not.
      const here =
        schema === undefined
          ? sql`pg_catalog.pg_table_is_visible(c.oid)`
          : sql`c.relnamespace = (select n.oid from pg_catalog.pg_namespace n where n.nspname = ${schema})`;
      const { rows } = await sql<{ found: boolean }>`select exists (
        select from pg_catalog.pg_class c where c.relname = 'leeway_store' and ${here}
      ) as found`.execute(on);
      return rows[0]?.found === true;
    },
    lockMigrations: async (trx) => {
      await sql`select pg_advisory_xact_lock(${sql.lit(MIGRATION_LOCK)})`.execute(trx);
      if (schema === undefined) return;
      // The tables are made where the search path says, for this transaction alone.
      await sql`create schema if not exists ${sql.id(schema)}`.execute(trx);
      await sql`select set_config('search_path', quote_ident(${schema}), true)`.execute(trx);
    },
    // The migration is one transaction. Backups of whole databases are made by the administrator.
    backUp: async () => undefined,
    removeTraces: () => removeTraces(db, { place, patience, pause: PAUSE, schema }),
    inspect: async () => [],
    close: () => db.destroy(),
  };
}
