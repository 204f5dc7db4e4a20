import type { Kysely } from "kysely";
import { compareEvents, currentEvent } from "../../progress/index.js";
import type { JournalEvent } from "../../schema/index.js";
import type { JournalKey } from "../model.js";
import { keyText } from "./keyText.js";
import type { EventRow, Tables } from "./tables.js";

/** Rows per statement: our choice, some hundred kilobytes. */
const PAGE = 1000;

/** The event rows of a journal, page by page, ordered by turn; rows of one turn are in no particular order. */
export async function* eventPages(db: Kysely<Tables>, key: JournalKey): AsyncIterable<readonly EventRow[]> {
  const student = keyText(key.student);
  const curriculum = keyText(key.curriculum);
  let last: EventRow | undefined;
  for (;;) {
    const after = last;
    let query = db
      .selectFrom("leeway_events")
      .selectAll()
      .where("student", "=", student)
      .where("curriculum", "=", curriculum);
    if (after !== undefined)
      query = query.where((row) => row(row.refTuple("turn", "digest"), ">", row.tuple(after.turn, after.digest)));
    const rows = await query.orderBy("turn").orderBy("digest").limit(PAGE).execute();
    if (rows.length > 0) yield rows;
    last = rows.at(-1);
    if (rows.length < PAGE) return;
  }
}

/** The events of a journal in its order. Events whose text is not JSON are left out. */
export async function* eventsInOrder(pages: AsyncIterable<readonly EventRow[]>): AsyncIterable<JournalEvent> {
  let turn = 0;
  let together: JournalEvent[] = [];
  for await (const page of pages) {
    for (const row of page) {
      if (row.turn !== turn) yield* together.sort(compareEvents);
      if (row.turn !== turn) together = [];
      turn = row.turn;
      const event = bodyOf(row);
      if (event !== undefined) together.push(event as JournalEvent);
    }
  }
  yield* together.sort(compareEvents);
}

/** The event of a row as this version writes it; `undefined` when it is not JSON. */
export function bodyOf({ body }: Pick<EventRow, "body">): unknown {
  try {
    return currentEvent(JSON.parse(body));
  } catch {
    return undefined;
  }
}
