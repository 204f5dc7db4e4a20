import { chmodSync, existsSync, statSync } from "node:fs";
import { dirname } from "node:path";
import { Kysely, SqliteDialect, sql } from "kysely";
import { storeProblem } from "../codes.js";
import { storeFailure } from "../failure.js";
import { sayProblem } from "../say.js";
import type { Database } from "../sql/database.js";
import { retry } from "../sql/retry.js";
import type { Tables } from "../sql/tables.js";
import { sqliteDriver } from "./driver.js";
import { backUpFile, removeTracesOf } from "./files.js";
import { type Connection, rowsOf, valuesOf } from "./model.js";
import { isTransient, sqliteProblem } from "./problems.js";
import { statementsOf } from "./statements.js";
import { writeAtOnce } from "./writeAtOnce.js";

export interface SqliteOptions {
  /** Whether to create the file when it does not exist. Its folder must exist. */
  readonly create: boolean;
  /** Whether tables of an older version are brought up to date first; the file as it was stays beside it. Otherwise it is refused. */
  readonly migrate?: boolean;
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
export async function connect(path: string, { create, patience = PATIENCE }: SqliteOptions): Promise<Connection> {
  // First: who is told to make a store must be able to.
  const driver = await sqliteDriver();
  const isNew = !existsSync(path);
  if (isNew && !create) {
    const message = sayProblem("store-problem.store-not-found", { place: path });
    const remedy = sayProblem("store-problem.store-not-found-remedy");
    throw storeFailure(storeProblem("STORE_NOT_FOUND", message, {}, remedy));
  }
  if (isNew && !existsSync(dirname(path))) {
    const message = sayProblem("store-problem.store-folder-missing", { folder: dirname(path) });
    const remedy = sayProblem("store-problem.store-folder-missing-remedy");
    throw storeFailure(storeProblem("STORE_PLACE_UNUSABLE", message, {}, remedy));
  }
  if (!isNew && !statSync(path).isFile()) {
    const message = sayProblem("store-problem.store-no-file", { place: path });
    const remedy = sayProblem("store-problem.store-no-file-remedy");
    throw storeFailure(storeProblem("STORE_PLACE_UNUSABLE", message, {}, remedy));
  }
  const connection = driver.open(path, AT_A_STRETCH);
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

/**
 * Opens a connection for reading to a file that may not be written. Throws store failures: STORE_READ_ONLY while a write-ahead log is beside the file,
 * which cannot be read without writing; STORE_FOREIGN; and errors of the driver.
 */
export async function connectToRead(path: string): Promise<Connection> {
  const log = `${path}-wal`;
  if (statSync(log, { throwIfNoEntry: false })?.size) {
    const message = sayProblem("store-problem.store-log-unread", { place: path, log });
    throw storeFailure(
      storeProblem("STORE_READ_ONLY", message, {}, sayProblem("store-problem.store-log-unread-remedy")),
    );
  }
  const connection = (await sqliteDriver()).openUnchanged(path);
  try {
    if (valuesOf(connection, "pragma application_id")[0] !== APPLICATION_ID) throw foreign(path);
    // What writes is refused with SQLITE_READONLY.
    connection.exec("pragma query_only = on");
    return connection;
  } catch (error) {
    connection.close();
    throw error;
  }
}

function foreign(path: string): Error {
  const message = sayProblem("store-problem.store-foreign", { place: path });
  return storeFailure(storeProblem("STORE_FOREIGN", message, {}, sayProblem("store-problem.store-foreign-remedy")));
}

function prepare(connection: Connection, path: string): void {
  const pragma = (text: string): unknown => valuesOf(connection, `pragma ${text}`)[0];
  // Nothing is written to a file that is neither ours nor empty.
  const [id, isEmpty] = inTransaction(connection, () => [
    pragma("application_id"),
    valuesOf(connection, "select count(*) from sqlite_master")[0] === 0,
  ]);
  if (id !== APPLICATION_ID && !(id === 0 && isEmpty)) throw foreign(path);
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

/** Reads in one transaction, so that no other program writes in between. */
function inTransaction<T>(connection: Connection, work: () => T): T {
  connection.exec("begin");
  try {
    return work();
  } finally {
    connection.exec("commit");
  }
}

/** The SQLite part of `Database`. */
export function sqliteDatabase(path: string, connection: Connection, patience: number = PATIENCE): Database {
  const statements = statementsOf(connection);
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: statements }) });
  return {
    db,
    place: path,
    tableNamed: (name) => sql.table(name),
    begun: async () => undefined,
    write: (all) => db.connection().execute(async () => writeAtOnce(statements, all)),
    nameType: "text",
    clustered: "without rowid",
    ...waiting(path, patience),
    hasTables: async () => valuesOf(connection, "select 1 from sqlite_master where name = 'leeway_store'").length > 0,
    lockMigrations: async (trx) => {
      // The first statement of a writing transaction must be a write, so that the transaction waits for its turn.
      await trx.schema.createTable("leeway_lock").addColumn("held", "integer").execute();
      await trx.schema.dropTable("leeway_lock").execute();
    },
    backUp: async (version) => backUpFile(connection, path, version),
    removeTraces: async (student) => removeTracesOf(connection, path, student),
    inspect: async () => {
      const rows = rowsOf<{ readonly integrity_check: string }>(connection, "pragma integrity_check(20)");
      return rows.map((row) => row.integrity_check).filter((said) => said !== "ok");
    },
    close: () => db.destroy(),
  };
}
