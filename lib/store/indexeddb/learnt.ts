import type { JournalKey, Learnt, LearntStore } from "../model.js";
import { digestOf } from "./addEvents.js";
import type { Database } from "./connection.js";

/** What was learnt of students, beside their journals; what is not what was kept is not there. */
export function learntIn(database: Database): LearntStore {
  return {
    read: async ({ student, curriculum }: JournalKey): Promise<Learnt | undefined> => {
      const row = await database.run((connection) => connection.get("learnt", [student, curriculum]));
      if (row === undefined || row.digest !== digestOf(row.body)) return undefined;
      const { basis, takes, body } = row;
      return { basis, takes, body };
    },
    keep: ({ student, curriculum }, learnt) =>
      database.run(async (connection) => {
        // It can be worked out again, so that nobody waits for the disk.
        const writing = connection.transaction(["journals", "learnt"], "readwrite", { durability: "relaxed" });
        if ((await writing.objectStore("journals").getKey([student, curriculum])) === undefined)
          throw new DOMException("there is no such journal", "NotFoundError");
        await writing.objectStore("learnt").put({ ...learnt, student, curriculum, digest: digestOf(learnt.body) });
        await writing.done;
      }),
  };
}
