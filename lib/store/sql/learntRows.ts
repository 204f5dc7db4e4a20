import type { JournalKey, Learnt } from "../model.js";
import { at } from "./addEvents.js";
import type { Database } from "./database.js";
import { digestOf } from "./digest.js";
import { keyText } from "./keyText.js";

/** What was learnt of a student, as it was kept last; `undefined` also where it is not what was kept. */
export async function readLearnt({ db }: Database, key: JournalKey): Promise<Learnt | undefined> {
  const row = await at(db.selectFrom("leeway_learnt"), key).select(["basis", "takes", "body"]).executeTakeFirst();
  if (row === undefined) return undefined;
  const { takes, body } = row;
  const [digest, basis = ""] = row.basis.split(" ", 2);
  return digest === digestOf(body) ? { basis, takes, body } : undefined;
}

/** Keeps what was learnt of a student, where there is such a journal. */
export async function keepLearnt({ db }: Database, key: JournalKey, learnt: Learnt): Promise<void> {
  const columns = { ...learnt, basis: `${digestOf(learnt.body)} ${learnt.basis}` };
  await db
    .insertInto("leeway_learnt")
    .values({ student: keyText(key.student), curriculum: keyText(key.curriculum), ...columns })
    .onConflict((conflict) => conflict.columns(["student", "curriculum"]).doUpdateSet(columns))
    .execute();
}
