import { isStoreProblem, storeFailure } from "../failure.js";
import type { Database } from "./database.js";

/**
 * Does work on a database, and again after transient errors (a restarting server, a lost connection) for as long as the patience lasts. So the
 * work must be safe to repeat. Other errors of the database become store failures; `RangeError` and `TypeError` are thrown unchanged.
 */
export async function retry<T>(
  database: Pick<Database, "isTransient" | "problemOf" | "patience" | "pause">,
  work: () => Promise<T>,
): Promise<T> {
  for (let waited = 0; ; waited += database.pause) {
    try {
      return await work();
    } catch (error) {
      if (error instanceof RangeError || error instanceof TypeError || isStoreProblem(error)) throw error;
      if (!database.isTransient(error) || waited >= database.patience)
        throw storeFailure(database.problemOf(error), error);
      await new Promise((resolve) => setTimeout(resolve, database.pause));
    }
  }
}
