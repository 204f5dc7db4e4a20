import type { Erasure } from "../model.js";
import { type Database, inTransaction } from "./database.js";
import { keyText } from "./keyText.js";
import { retry } from "./retry.js";
import { STUDENT_TABLES } from "./tables.js";

/** Removes the rows of a student, then their traces in files. Each part is retried by itself, so that the number of rows stays known. */
export async function erase(database: Database, student: string): Promise<Erasure> {
  const removed = await retry(database, () =>
    inTransaction(database, async (trx) => {
      const counts = new Map<string, number>();
      for (const table of STUDENT_TABLES) {
        const rows = trx.deleteFrom(table).where("student", "=", keyText(student));
        counts.set(table, Number((await rows.executeTakeFirst()).numDeletedRows));
      }
      return { journals: counts.get("leeway_journals")!, events: counts.get("leeway_events")! };
    }),
  );
  const traces = await retry(database, () => database.removeTraces(student));
  return {
    ...removed,
    elsewhere: traces.map(({ says }) => says),
    elsewhereMessages: traces.map(({ message }) => message),
  };
}
