import type { JournalKey, Learnt } from "../model.js";
import { at } from "./addEvents.js";
import type { Database } from "./database.js";
import { keyText } from "./keyText.js";

/** What was learnt of a student, as it was kept last. */
export async function readLearnt({ db }: Database, key: JournalKey): Promise<Learnt | undefined> {
  const row = await at(db.selectFrom("leeway_learnt"), key).select(["basis", "takes", "body"]).executeTakeFirst();
  return row === undefined ? undefined : { basis: row.basis, takes: row.takes, body: row.body };
}

/** Keeps what was learnt of a student, where there is such a journal. */
export async function keepLearnt({ db }: Database, key: JournalKey, learnt: Learnt): Promise<void> {
  const row = { student: keyText(key.student), curriculum: keyText(key.curriculum), ...learnt };
  await db
    .insertInto("leeway_learnt")
    .values(row)
    .onConflict((conflict) => conflict.columns(["student", "curriculum"]).doUpdateSet(learnt))
    .execute();
}
