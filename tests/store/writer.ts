import { writeSync } from "node:fs";
import { beginJournal } from "../../lib/progress/index.js";
import { isStoreProblem, record } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { timeOf } from "../progress/course.js";
import { COURSE, keyOf, submit } from "./material.js";

/**
 * A device as a program of its own: submits takes to a store until it is killed or has done so many, and says after each that it was kept.
 * `node writer.mjs STORE STUDENT NAME COUNT`: prints `kept NAME-1` and so on, or `failed CODE`.
 */
const [path, student, name, count] = process.argv.slice(2) as [string, string, string, string];
const say = (line: string): void => void writeSync(1, `${line}\n`);

const opened = await openSqlite(path, { create: true });
if (!opened.ok) say(`failed ${opened.problems[0]!.code}`);
else {
  const store = opened.value;
  try {
    await record(store, keyOf(student), (journal) =>
      journal?.standing === undefined
        ? beginJournal(COURSE, student, timeOf(0))
        : { events: [], standing: journal.standing },
    );
    say("ready");
    for (let i = 1; i <= Number(count); i++) {
      // Verdicts that keep the student on a few rungs: a journal of many takes and few drills.
      await submit(store, student, { take: `${name}-${i}`, verdict: i % 3 === 0 ? "within" : "beyond" });
      say(`kept ${name}-${i}`);
    }
  } catch (error) {
    say(`failed ${isStoreProblem(error) ? error.problem.code : error}`);
  }
}
