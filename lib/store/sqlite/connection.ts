import { chmodSync, existsSync, statSync } from "node:fs";
import { dirname } from "node:path";
import type SqliteConnection from "better-sqlite3";
import { Kysely, type SqliteDatabase, SqliteDialect } from "kysely";
import { storeProblem } from "../codes.js";
import { storeFailure } from "../failure.js";
import type { Database } from "../sql/database.js";
import { retry } from "../sql/retry.js";
import type { Tables } from "../sql/tables.js";
import { backUpFile, removeTracesOf } from "./files.js";
import { isTransient, sqliteProblem } from "./problems.js";

export interface SqliteOptions {
  /** Whether to create the file when it does not exist. Its folder must exist. */
  readonly create: boolean;
  /** Milliseconds to wait for other programs that are writing; our choice when left out: 10 000. */
  readonly patience?: number;
}

/** "leew" in ASCII: marks our files, so that files of other programs are recognised (https://sqlite.org/pragma.html#pragma_application_id). */
const APPLICATION_ID = 0x6c656577;

/** Default time to wait for a lock, in milliseconds. */
const PATIENCE = 10_000;

/**
 * Longest single wait inside SQLite, in milliseconds, which blocks the whole program: our choice, the time of some transactions of another
 * process. Then the program continues, so that a writer inside it can finish, and the transaction is retried.
 */
const AT_A_STRETCH = 20;

/** Retry settings of a SQLite file. */
const waiting = (path: string, patience: number) => ({
  patience,
  pause: 5,
  problemOf: (error: unknown) => sqliteProblem(path, error),
  isTransient,
});

/** Opens a connection to the file. Throws store failures and errors of the driver. */
export async function connect(
  path: string,
  { create, patience = PATIENCE }: SqliteOptions,
): Promise<SqliteConnection.Database> {
  const isNew = !existsSync(path);
  if (isNew && !create) {
    const message = `there is no store at ${path}`;
    throw storeFailure(
      storeProblem("STORE_NOT_FOUND", message, {}, "enrol a student or import a journal first, or name another store"),
    );
  }
  if (isNew && !existsSync(dirname(path))) {
    throw storeFailure(
      storeProblem("STORE_PLACE_UNUSABLE", `the folder ${dirname(path)} is not there`, {}, "make the folder first"),
    );
  }
  if (!isNew && !statSync(path).isFile()) {
    throw storeFailure(storeProblem("STORE_PLACE_UNUSABLE", `${path} is not a file`, {}, "name a file for the store"));
  }
  const Connection = await driver();
  const connection = new Connection(path, { timeout: AT_A_STRETCH });
  try {
    // Journals are personal data, often of children: only the owner may read the file.
    if (isNew && process.platform !== "win32") chmodSync(path, 0o600);
    // When several processes create a file together, SQLite refuses some of them without waiting, to avoid a deadlock. So this is retried.
    await retry(waiting(path, patience), async () => prepare(connection, path));
    return connection;
  } catch (error) {
    connection.close();
    throw error;
  }
}

function prepare(connection: SqliteConnection.Database, path: string): void {
  const pragma = (text: string): unknown => connection.pragma(text, { simple: true });
  // Nothing is written to a file that is neither ours nor empty.
  const { id, isEmpty } = connection.transaction(() => ({
    id: pragma("application_id"),
    isEmpty: connection.prepare("select count(*) as n from sqlite_master").pluck().get() === 0,
  }))();
  if (id !== APPLICATION_ID && !(id === 0 && isEmpty)) {
    const message = `${path} is the database of another program`;
    throw storeFailure(storeProblem("STORE_FOREIGN", message, {}, "name another file for the store"));
  }
  if (pragma("journal_mode = wal") !== "wal") throw Object.assign(new Error("no WAL"), { code: "SQLITE_READONLY" });
  pragma("synchronous = full");
  pragma("foreign_keys = on");
  // Deleted content is overwritten with zeros, and sorting uses no temporary files.
  pragma("secure_delete = on");
  pragma("temp_store = memory");
  pragma("trusted_schema = off");
  pragma("cell_size_check = on");
  if (id !== APPLICATION_ID) pragma(`application_id = ${APPLICATION_ID}`);
}

/** The SQLite part of `Database`. */
export function sqliteDatabase(
  path: string,
  connection: SqliteConnection.Database,
  patience: number = PATIENCE,
): Database {
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: statementsOf(connection) }) });
  return {
    db,
    place: path,
    nameType: "text",
    clustered: "without rowid",
    ...waiting(path, patience),
    hasTables: async () =>
      connection.prepare("select 1 from sqlite_master where name = 'leeway_store'").get() !== undefined,
    lockMigrations: async (trx) => {
      // The first statement of a writing transaction must be a write, so that the transaction waits for its turn.
      await trx.schema.createTable("leeway_lock").addColumn("held", "integer").execute();
      await trx.schema.dropTable("leeway_lock").execute();
    },
    backUp: async (version) => backUpFile(connection, path, version),
    removeTraces: async (student) => removeTracesOf(connection, path, student),
    inspect: async () => {
      const rows = connection.pragma("integrity_check(20)") as readonly { readonly integrity_check: string }[];
      return rows.map((row) => row.integrity_check).filter((said) => said !== "ok");
    },
    close: () => db.destroy(),
  };
}

/** Loads the driver. It is compiled for each machine and may be missing. */
async function driver(): Promise<typeof SqliteConnection> {
  try {
    return (await import("better-sqlite3")).default;
  } catch (error) {
    const message =
      "stores in files need the package better-sqlite3, which is not installed or not built for this machine";
    const remedy =
      "npm install better-sqlite3 (it is compiled if need be: python3, make and a C++ compiler), or name a PostgreSQL store";
    throw storeFailure(storeProblem("STORE_DRIVER_MISSING", message, {}, remedy), error);
  }
}

/** Largest number of prepared statements kept: our choice, enough for all but lists of unusual length. */
const MOST_READY = 100;

/** A statement without effect: the rollback when SQLite has already rolled back, as it does on a full disk. */
const NOTHING: ReturnType<SqliteDatabase["prepare"]> = {
  reader: false,
  all: () => [],
  run: () => ({ changes: 0, lastInsertRowid: 0 }),
  iterate: () => [][Symbol.iterator](),
};

/** The connection as the query builder uses it. Statements are prepared once, and a rollback without a transaction does nothing, so that it does not hide the first error. */
function statementsOf(connection: SqliteConnection.Database): SqliteDatabase {
  const ready = new Map<string, ReturnType<SqliteDatabase["prepare"]>>();
  return {
    close: () => void connection.close(),
    prepare: (text) => {
      if (text === "rollback" && !connection.inTransaction) return NOTHING;
      const known = ready.get(text);
      if (known !== undefined) return known;
      const prepared = connection.prepare(text) as unknown as ReturnType<SqliteDatabase["prepare"]>;
      if (ready.size < MOST_READY) ready.set(text, prepared);
      return prepared;
    },
  };
}
