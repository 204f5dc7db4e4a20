import { Kysely, PostgresDialect, sql } from "kysely";
import pg from "pg";
import { failure, type Result, success } from "../../base/index.js";
import { storeProblem } from "../codes.js";
import { failureProblem, storeFailure } from "../failure.js";
import type { Store } from "../model.js";
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
  /** Makes the tables when they are not there. */
  readonly create: boolean;
  /** Connections used at once; our choice when left out: 8. */
  readonly connections?: number;
  /** Milliseconds for which a server that is gone or restarting is tried again; our choice when left out: 10 000. */
  readonly patience?: number;
}

/** Milliseconds to wait for a connection; our choice. */
const CONNECTING = 5000;

/** Milliseconds between attempts; our choice: a server that restarts takes some tenths of a second at least. */
const PAUSE = 100;

/** Any number will do, as long as nobody else uses it: the lock under which tables change. "leew" in ASCII. */
const MIGRATION_LOCK = 0x6c656577;

/**
 * Opens the store in a PostgreSQL database, bringing its tables up to date first (a backup is the server's: see the notes on stores).
 *
 * Problems: STORE_ADDRESS_UNREADABLE, STORE_NOT_FOUND (no tables, and not to be made), STORE_UNREACHABLE, STORE_PLACE_UNUSABLE, STORE_VERSION_NEWER, STORE_FULL,
 * STORE_READ_ONLY, STORE_FAILED.
 * @example
 * const store = await openPostgres("postgresql://school@localhost/leeway", { create: true });
 */
export async function openPostgres(url: string, options: PostgresOptions): Promise<Result<Store>> {
  let database: Database | undefined;
  try {
    database = postgresDatabase(url, options);
    const { db, hasTables } = database;
    if (!options.create && !(await retry(database, () => hasTables(db)))) {
      const message = `there is no store in ${database.place}`;
      const remedy = "enrol a student or import a journal first, or name another store";
      throw storeFailure(storeProblem("STORE_NOT_FOUND", message, {}, remedy));
    }
    await migrate(database);
    await retry(database, () => forbidStatistics(db));
    return success(sqlStore(database));
  } catch (error) {
    await database?.close();
    return failure(failureProblem(error) ?? postgresProblem(placeOf(url), error));
  }
}

/** What differs from other databases. */
export function postgresDatabase(url: string, { connections = 8, patience = 10_000 }: PostgresOptions): Database {
  const place = placeOf(url);
  const pool = new pg.Pool({
    connectionString: url,
    max: connections,
    connectionTimeoutMillis: CONNECTING,
    application_name: "leeway",
    // What was answered must be durable, whatever the server does by default.
    options: "-c synchronous_commit=on -c client_min_messages=warning",
  });
  // A connection that is cut fails the query that uses it, and the next use makes another; beyond that it concerns nobody.
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
      const { rows } = await sql<{ found: boolean }>`select to_regclass('leeway_store') is not null as found`.execute(
        on,
      );
      return rows[0]?.found === true;
    },
    lockMigrations: async (trx) => {
      await sql`select pg_advisory_xact_lock(${sql.lit(MIGRATION_LOCK)})`.execute(trx);
    },
    // The tables change inside one transaction; copies of whole databases are the server's business.
    backUp: async () => undefined,
    removeTraces: () => removeTraces(db, { place, patience, pause: PAUSE }),
    inspect: async () => [],
    close: () => db.destroy(),
  };
}
