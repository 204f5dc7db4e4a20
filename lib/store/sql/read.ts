import type { DrillStanding } from "../../schema/index.js";
import type { JournalEntry, JournalKey, OpenJournal } from "../model.js";
import type { Database } from "./database.js";
import { keyText, nameOf } from "./keyText.js";
import { retry } from "./retry.js";
import { drillOf, standingOf } from "./standingRows.js";
import type { JournalRow } from "./tables.js";

/** A journal with its standing, both read by one statement, so that they are consistent. */
export async function open({ db }: Database, key: JournalKey): Promise<OpenJournal | undefined> {
  const rows = await db
    .selectFrom("leeway_journals as journal")
    .leftJoin("leeway_drills as drill", (join) =>
      join.onRef("drill.student", "=", "journal.student").onRef("drill.curriculum", "=", "journal.curriculum"),
    )
    .select(["journal.revision", "journal.events", "journal.edition", "journal.latest", "journal.counted"])
    .select(["drill.head", "drill.rungs"])
    .where("journal.student", "=", keyText(key.student))
    .where("journal.curriculum", "=", keyText(key.curriculum))
    .orderBy("drill.place")
    .execute();
  const first = rows[0];
  if (first === undefined) return undefined;
  const drills = rows.flatMap(({ head, rungs }): DrillStanding[] =>
    head === null || rungs === null ? [] : [drillOf({ head, rungs })],
  );
  const { student, curriculum } = key;
  const standing = standingOf(key, first, drills);
  return { student, curriculum, edition: standing?.edition, events: first.events, revision: first.revision, standing };
}

/** Rows per statement: our choice. */
const PAGE = 1000;

/** All journals, or those of one student, in the order of `Store.journals`. */
export async function* journals(database: Database, student: string | undefined): AsyncIterable<JournalEntry> {
  let last: JournalRow | undefined;
  for (;;) {
    const after = last;
    const rows = await retry(database, () => {
      let query = database.db.selectFrom("leeway_journals").selectAll();
      if (student !== undefined) query = query.where("student", "=", keyText(student));
      if (after !== undefined)
        query = query.where((row) =>
          row(row.refTuple("student", "curriculum"), ">", row.tuple(after.student, after.curriculum)),
        );
      return query.orderBy("student").orderBy("curriculum").limit(PAGE).execute();
    });
    for (const row of rows) yield entryOf(row);
    last = rows.at(-1);
    if (rows.length < PAGE) return;
  }
}

function entryOf(row: JournalRow): JournalEntry {
  return {
    student: nameOf(row.student),
    curriculum: nameOf(row.curriculum),
    edition: row.edition ?? undefined,
    events: row.events,
    revision: row.revision,
  };
}
