import type { Erasure } from "../model.js";
import type { Database } from "./database.js";
import { keyText } from "./keyText.js";

/** The tables that hold anything about a student, those that refer to others first. */
const TABLES = ["leeway_set_aside", "leeway_drills", "leeway_events", "leeway_journals"] as const;

/** Removes a student's rows, then what they left behind in files. */
export async function erase(database: Database, student: string): Promise<Erasure> {
  const removed = await database.db.transaction().execute(async (trx) => {
    const counts = new Map<string, number>();
    for (const table of TABLES) {
      const { numDeletedRows } = await trx.deleteFrom(table).where("student", "=", keyText(student)).executeTakeFirst();
      counts.set(table, Number(numDeletedRows));
    }
    return { journals: counts.get("leeway_journals")!, events: counts.get("leeway_events")! };
  });
  return { ...removed, elsewhere: await database.removeTraces(student) };
}
