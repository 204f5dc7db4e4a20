import { sql } from "kysely";
import type { DrillStanding } from "../../schema/index.js";
import type { JournalEntry, JournalKey, OpenJournal } from "../model.js";
import type { Database } from "./database.js";
import { keyText, nameOf } from "./keyText.js";
import { type Held, type Lately, restsOn } from "./lately.js";
import { retry } from "./retry.js";
import { bodiesOfRungs, drillOf, standingOf } from "./standingRows.js";
import { summaryOfParts } from "./summaryParts.js";
import type { JournalRow } from "./tables.js";

/** A journal with its standing, both read by one statement, so that they are consistent. */
export async function open(database: Database, key: JournalKey): Promise<OpenJournal | undefined> {
  const held = await readJournal(database, key);
  return held && openOf(key, held);
}

/** The same, from what is held of it where that is what the database has; what is read is held. */
export async function openLately(
  database: Database,
  lately: Lately,
  key: JournalKey,
): Promise<OpenJournal | undefined> {
  const held = await readJournal(database, key, lately.get(key));
  lately.set(key, held);
  return held && openOf(key, held);
}

function openOf({ student, curriculum }: JournalKey, { row, standing }: Held): OpenJournal {
  const { events, revision } = row;
  return { student, curriculum, edition: standing?.edition, events, revision, standing };
}

type Row = JournalRow & {
  readonly same: boolean | number;
  readonly head: string | null;
  readonly rungs: string | null;
  readonly summary: string | null;
};

/** Reads a journal by one statement, of which nothing but its row is sent when that is as it is held; `undefined` when there is none. */
export async function readJournal(database: Database, key: JournalKey, held?: Held): Promise<Held | undefined> {
  const { db, tableNamed } = database;
  const same = held === undefined ? sql`1 = 0` : restsOn(held.row);
  const { rows } =
    await sql<Row>`select j.*, ${same} as same, d.head, ${bodiesOfRungs(tableNamed("leeway_rungs"))} as rungs,
    case when ${same} then null when coalesce(d.place, 0) = 0 then (
      select string_agg(${PART}, ',') from ${tableNamed("leeway_summaries")} as s
        where s.student = j.student and s.curriculum = j.curriculum
    ) end as summary
    from ${tableNamed("leeway_journals")} as j left join ${tableNamed("leeway_drills")} as d
      on d.student = j.student and d.curriculum = j.curriculum and not (${same})
    where j.student = ${keyText(key.student)} and j.curriculum = ${keyText(key.curriculum)}
    order by d.place`.execute(db);
  const [first] = rows;
  if (first === undefined) return undefined;
  if (held !== undefined && first.same) return held;
  const { same: _same, head: _head, rungs: _rungs, summary, ...row } = first;
  const drills = rows.flatMap(({ head, rungs }): DrillStanding[] => (head === null ? [] : [drillOf(head, rungs)]));
  return {
    row,
    standing: standingOf(key, row, drills),
    summary: summary === null ? undefined : summaryOfParts(JSON.parse(`[${summary}]`)),
  };
}

/** A part of a summary in SQL: the name of a part is the inside of a JSON text, as its student is, and its body is text in it. */
const PART = sql`'{"part":"' || s.part || '","body":' || s.body || '}'`;

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
