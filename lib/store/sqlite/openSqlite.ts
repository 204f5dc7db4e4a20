import { accessSync, constants, statSync } from "node:fs";
import { resolve } from "node:path";
import { failure, success } from "../../base/index.js";
import { storeProblem } from "../codes.js";
import { isStoreProblem, storeFailure } from "../failure.js";
import type { Store } from "../model.js";
import type { Problem, Result } from "../problem.js";
import { sayProblem } from "../say.js";
import type { Database } from "../sql/database.js";
import { migrate } from "../sql/migrations.js";
import { sqlStore } from "../sql/sqlStore.js";
import { connect, connectToRead, type SqliteOptions, sqliteDatabase } from "./connection.js";
import type { Connection } from "./model.js";
import { sqliteProblem } from "./problems.js";

/**
 * Opens the store in a SQLite file. A store of an older version is refused unless `migrate` is set (`leeway store migrate` sets it); a copy of the old file stays beside it then. A file
 * that may only be read is opened as it is now; what would write then rejects with STORE_READ_ONLY.
 *
 * Problems: STORE_NOT_FOUND, STORE_PLACE_UNUSABLE, STORE_DRIVER_MISSING, STORE_FOREIGN, STORE_VERSION_OLDER, STORE_VERSION_NEWER, STORE_READ_ONLY (of an older version, or with a
 * write-ahead log, and not to be written), STORE_FULL, STORE_BUSY, STORE_DAMAGED, STORE_FAILED.
 * @example
 * const store = await openSqlite("school.sqlite", { create: true });
 */
export async function openSqlite(path: string, options: SqliteOptions): Promise<Result<Store>> {
  const place = resolve(path);
  const { migrate: asked = false, patience } = options;
  const opened = await storeAt(path, asked, async () => sqliteDatabase(place, await connect(place, options), patience));
  const mayBeRead = !opened.ok && isUnwritable(opened.problems[0]) && isReadable(place);
  return mayBeRead ? storeAt(path, asked, async () => unwritten(place, await connectToRead(place))) : opened;
}

async function storeAt(path: string, asked: boolean, open: () => Promise<Database>): Promise<Result<Store>> {
  let database: Database | undefined;
  try {
    database = await open();
    await migrate(database, { asked });
    return success(sqlStore(database));
  } catch (error) {
    await database?.close();
    return failure(isStoreProblem(error) ? error.problem : sqliteProblem(path, error));
  }
}

/** The database of a file that is not written: tables of an older version stay as they are. */
function unwritten(place: string, connection: Connection): Database {
  const backUp = async (): Promise<never> => {
    const message = sayProblem("store-problem.store-old-unwritten", { place });
    const remedy = sayProblem("store-problem.store-read-only-remedy");
    throw storeFailure(storeProblem("STORE_READ_ONLY", message, {}, remedy));
  };
  return { ...sqliteDatabase(place, connection), backUp };
}

/** Whether a place could perhaps be read though it could not be opened for writing: SQLite says of a log that it may not make only that it could not open. */
function isUnwritable(problem: Problem | undefined): boolean {
  return problem?.code === "STORE_READ_ONLY" || problem?.code === "STORE_PLACE_UNUSABLE";
}

function isReadable(place: string): boolean {
  try {
    accessSync(place, constants.R_OK);
    return statSync(place).isFile();
  } catch {
    return false;
  }
}
