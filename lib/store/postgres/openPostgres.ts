import { Kysely, PostgresDialect, sql } from "kysely";
import { failure, notInstalled, success } from "../../base/index.js";
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
import { placeOf } from "./address.js";
import { isTransient, postgresProblem } from "./problems.js";
import { forbidStatistics } from "./statistics.js";
import { removeTraces } from "./traces.js";

export interface PostgresOptions {
  /** Whether to create the tables when they do not exist. */
  readonly create: boolean;
  /** Connections used at once; our choice when left out: 8. */
  readonly connections?: number;
  /** Milliseconds for which a server that is gone or restarting is tried again; our choice when left out: 10 000. */
  readonly patience?: number;
}

/** Milliseconds to wait for a connection: our choice. */
const CONNECTING = 5000;

/** Milliseconds between attempts; our choice: a server that restarts takes some tenths of a second at least. */
const PAUSE = 100;

/** Key of the advisory lock under which tables are migrated: any number that no other program uses. "leew" in ASCII. */
const MIGRATION_LOCK = 0x6c656577;

/**
 * Opens the store in a PostgreSQL database. Tables of an older version are migrated first; a backup is made by the administrator of the server
 * (see the notes on stores).
 *
 * Problems: STORE_ADDRESS_UNREADABLE, STORE_NOT_FOUND (no tables, and not to be made), STORE_UNREACHABLE, STORE_PLACE_UNUSABLE, STORE_VERSION_NEWER, STORE_FULL,
 * STORE_READ_ONLY, STORE_DRIVER_MISSING without the optional package `pg`, STORE_FAILED.
 * @example
 * const store = await openPostgres("postgresql://school@localhost/leeway", { create: true });
 */
export async function openPostgres(url: string, options: PostgresOptions): Promise<Result<Store>> {
  let database: Database | undefined;
  try {
    database = await postgresDatabase(url, options);
    const { db, hasTables } = database;
    if (!options.create && !(await retry(database, () => hasTables(db)))) {
      const message = sayProblem("store-problem.store-not-found-in-database", { place: database.place });
      const remedy = sayProblem("store-problem.store-not-found-remedy");
      throw storeFailure(storeProblem("STORE_NOT_FOUND", message, {}, remedy));
    }
    await migrate(database);
    await retry(database, () => forbidStatistics(db));
    const store = sqlStore(database);
    const isReplica = (await retry(database, () => replay(db))) !== undefined;
    return success(isReplica ? { ...store, followedUntil: async () => (await replay(db))?.until } : store);
  } catch (error) {
    await database?.close();
    return failure(isStoreProblem(error) ? error.problem : postgresProblem(placeOf(url), error));
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
  url: string,
  { connections = 8, patience = 10_000 }: PostgresOptions,
): Promise<Database> {
  const place = placeOf(url);
  const driver = await import("pg").catch(notInstalled);
  if (driver === undefined) {
    const message = sayProblem("store-problem.server-driver-missing");
    const remedy = sayProblem("store-problem.server-driver-missing-remedy");
    throw storeFailure(storeProblem("STORE_DRIVER_MISSING", message, {}, remedy));
  }
  const pool = new driver.default.Pool({
    connectionString: url,
    max: connections,
    connectionTimeoutMillis: CONNECTING,
    application_name: "leeway",
    // Every answered write must be durable, whatever the default of the server is.
    options: "-c synchronous_commit=on -c client_min_messages=warning",
  });
  // A lost connection fails its query, and the next query opens another. Nothing else has to be done.
  pool.on("error", () => undefined);
  pool.on("connect", (client) => client.on("error", () => undefined));
  const db = new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) });
  return {
    db,
    place,
    nameType: `text collate "C"`,
    clustered: "",
    patience,
    pause: PAUSE,
    problemOf: (error) => postgresProblem(place, error),
    isTransient,
    hasTables: async (on) => {
      // to_regclass() takes no lock and may answer from before another process made the tables; reading the catalogue does not.
      const { rows } = await sql<{ found: boolean }>`select exists (
        select from pg_catalog.pg_class where relname = 'leeway_store' and pg_catalog.pg_table_is_visible(oid)
      ) as found`.execute(on);
      return rows[0]?.found === true;
    },
    lockMigrations: async (trx) => {
      await sql`select pg_advisory_xact_lock(${sql.lit(MIGRATION_LOCK)})`.execute(trx);
    },
    // The migration is one transaction. Backups of whole databases are made by the administrator.
    backUp: async () => undefined,
    removeTraces: () => removeTraces(db, { place, patience, pause: PAUSE }),
    inspect: async () => [],
    close: () => db.destroy(),
  };
}
