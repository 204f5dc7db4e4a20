import { failureProblem, storeFailure } from "../failure.js";
import type { Database } from "./database.js";

/**
 * Does work on a database. What may pass (a server that restarts, a connection that was cut) is tried again, so the work must be such that
 * doing it twice does no harm; other errors of the database become store failures. Misuse is thrown as it is.
 */
export async function retry<T>(
  database: Pick<Database, "isTransient" | "problemOf" | "patience" | "pause">,
  work: () => Promise<T>,
): Promise<T> {
  for (let waited = 0; ; waited += database.pause) {
    try {
      return await work();
    } catch (error) {
      if (error instanceof RangeError || error instanceof TypeError || failureProblem(error) !== undefined) throw error;
      if (!database.isTransient(error) || waited >= database.patience)
        throw storeFailure(database.problemOf(error), error);
      await new Promise((resolve) => setTimeout(resolve, database.pause));
    }
  }
}
