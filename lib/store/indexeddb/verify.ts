import type { Problem } from "../../base/index.js";
import { fold, readEvent, standingText } from "../../progress/index.js";
import type { JournalEvent, Standing } from "../../schema/index.js";
import { storeProblem } from "../codes.js";
import type { JournalKey } from "../model.js";
import { sayProblem } from "../say.js";
import { digestOf, eventsOf, keepRow, rangeOf, type Writing } from "./addEvents.js";
import type { Database } from "./connection.js";
import type { EventRow } from "./tables.js";

/** Whether a kept event is unchanged and belongs to this journal. */
function isIntact(key: JournalKey, { turn, id, digest, body }: EventRow): boolean {
  if (digestOf(body) !== digest) return false;
  const event = readEvent(readBody(body));
  if ("code" in event) return false;
  return event.student === key.student && event.curriculum === key.curriculum && event.turn === turn && event.id === id;
}

/** What a text holds; the text itself when it is not JSON. */
function readBody(body: string): unknown {
  try {
    return JSON.parse(body);
  } catch {
    return body;
  }
}

/** The problems of one journal. */
export async function verifyJournal(database: Database, key: JournalKey): Promise<readonly Problem[]> {
  const { rows, row } = await database.run(async (connection) => {
    const reading = connection.transaction(["journals", "events"], "readonly");
    return {
      row: await reading.objectStore("journals").get([key.student, key.curriculum]),
      rows: await reading.objectStore("events").getAll(rangeOf(key)),
    };
  });
  if (row === undefined) return [];
  const { student, curriculum: course } = key;
  const altered = rows.filter((each) => !isIntact(key, each));
  const repair = sayProblem("store-problem.repair-remedy");
  const problems: Problem[] = altered.map(({ id, turn }) => {
    const message = sayProblem("store-problem.event-altered", { id, turn: `${turn}`, student, course });
    return storeProblem("EVENT_ALTERED", message, {}, repair);
  });
  if (rows.length !== row.events) {
    const counts = { found: rows.length, written: row.events };
    const message = sayProblem("store-problem.events-missing", { student, course, ...counts });
    problems.push(storeProblem("EVENTS_MISSING", message, {}, sayProblem("store-problem.events-missing-remedy")));
  }
  const events = rows.filter((each) => isIntact(key, each)).map(({ body }) => readBody(body) as JournalEvent);
  const due = fold(events, { of: key }).standing;
  const kept = row.standing === undefined ? undefined : (JSON.parse(row.standing) as Standing);
  const [left, right] = [kept, due].map((each) => (each === undefined ? "" : standingText(each)));
  if (left !== right) {
    const message = sayProblem("store-problem.standing-stale", { student, course });
    problems.push(storeProblem("STANDING_STALE", message, {}, repair));
  }
  return problems;
}

/** Sets damaged events aside and works out what is worked out; gives the number of events set aside. */
export async function repairJournal(writing: Writing, key: JournalKey): Promise<number> {
  const row = await writing.objectStore("journals").get([key.student, key.curriculum]);
  if (row === undefined) return 0;
  const events = writing.objectStore("events");
  const damaged = (await events.getAll(rangeOf(key))).filter((each) => !isIntact(key, each));
  for (const { student, curriculum, turn, digest, body } of damaged) {
    await writing.objectStore("setAside").put({ student, curriculum, digest: digestOf(body), body });
    await events.delete([student, curriculum, turn, digest]);
  }
  const left = await eventsOf(writing, key);
  const { standing } = fold(left, { of: key });
  await keepRow(writing, key, { events: left.length, revision: row.revision + 1, standing });
  return damaged.length;
}
