import { resolve } from "node:path";
import { failure, success } from "../../base/index.js";
import { isStoreProblem } from "../failure.js";
import type { Store } from "../model.js";
import type { Result } from "../problem.js";
import type { Database } from "../sql/database.js";
import { migrate } from "../sql/migrations.js";
import { sqlStore } from "../sql/sqlStore.js";
import { connect, type SqliteOptions, sqliteDatabase } from "./connection.js";
import { sqliteProblem } from "./problems.js";

/**
 * Opens the store in a SQLite file. A store of an older version is migrated first, and a copy of the old file stays beside it.
 *
 * Problems: STORE_NOT_FOUND, STORE_PLACE_UNUSABLE, STORE_DRIVER_MISSING, STORE_FOREIGN, STORE_VERSION_NEWER, STORE_READ_ONLY, STORE_FULL,
 * STORE_BUSY, STORE_DAMAGED, STORE_FAILED.
 * @example
 * const store = await openSqlite("school.sqlite", { create: true });
 */
export async function openSqlite(path: string, options: SqliteOptions): Promise<Result<Store>> {
  let database: Database | undefined;
  try {
    const connection = await connect(resolve(path), options);
    database = sqliteDatabase(resolve(path), connection, options.patience);
    await migrate(database);
    return success(sqlStore(database));
  } catch (error) {
    await database?.close();
    return failure(isStoreProblem(error) ? error.problem : sqliteProblem(path, error));
  }
}
