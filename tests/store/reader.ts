import { writeSync } from "node:fs";
import { isStoreProblem } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { submit } from "./material.js";

/**
 * A program that may not write: `node reader.mjs STORE`. Prints `kept STUDENT: EVENTS` for each journal, `failed CODE` for what `verify` and a take
 * submitted to the first journal say.
 */
const say = (line: string): void => void writeSync(1, `${line}\n`);

const opened = await openSqlite(process.argv[2]!, { create: false });
if (!opened.ok) say(`failed ${opened.problems[0]!.code}`);
else {
  const store = opened.value;
  const students: string[] = [];
  for await (const key of store.journals()) {
    let events = 0;
    for await (const _ of store.events(key)) events++;
    say(`kept ${key.student}: ${events}`);
    students.push(key.student);
  }
  for await (const problem of store.verify()) say(`failed ${problem.code}`);
  try {
    await submit(store, students[0]!, { take: "never" });
    say("kept never");
  } catch (error) {
    say(`failed ${isStoreProblem(error) ? error.problem.code : error}`);
  }
  await store.close();
}
