import type { Erasure } from "../model.js";
import type { Database } from "./database.js";
import { keyText } from "./keyText.js";
import { retry } from "./retry.js";
import { STUDENT_TABLES } from "./tables.js";

/** Removes a student's rows, then what they left behind in files. What passes is tried again in each part by itself, so that the rows stay counted. */
export async function erase(database: Database, student: string): Promise<Erasure> {
  const removed = await retry(database, () =>
    database.db.transaction().execute(async (trx) => {
      const counts = new Map<string, number>();
      for (const table of STUDENT_TABLES) {
        const rows = trx.deleteFrom(table).where("student", "=", keyText(student));
        counts.set(table, Number((await rows.executeTakeFirst()).numDeletedRows));
      }
      return { journals: counts.get("leeway_journals")!, events: counts.get("leeway_events")! };
    }),
  );
  return { ...removed, elsewhere: await retry(database, () => database.removeTraces(student)) };
}
