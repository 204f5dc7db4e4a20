import { canonicalJson, fold, summarise } from "../../progress/index.js";
import type { JournalEvent, Standing } from "../../schema/index.js";
import type { JournalKey } from "../model.js";
import { orderEvents } from "../orderEvents.js";
import { digestOf } from "./digest.js";
import { keyText } from "./keyText.js";
import type { Held } from "./lately.js";
import { rungRows } from "./rungRows.js";
import { type ChangedDrill, drillRow, standingColumns } from "./standingRows.js";
import { summaryRows, touchedBy } from "./summaryParts.js";
import type { EventRow, JournalRow, JournalWrite } from "./tables.js";

/** What is to be written, and what is held once it is. */
export interface Worked {
  readonly write: JournalWrite;
  readonly held: Held;
}

/** Events of one such write: our choice, as many as a decision has at most but for odd ones. More are added by `addEvents`. */
const MOST_EVENTS = 100;

/**
 * Works out what appending events to a journal writes; `undefined` when that takes more than going on from its standing: events that do not follow its last, or a new
 * edition, which may change every drill.
 */
export function workOut(key: JournalKey, held: Held | undefined, given: readonly JournalEvent[]): Worked | undefined {
  if (given.length === 0 || given.length > MOST_EVENTS || given.some(({ kind }) => kind === "edition changed"))
    return undefined;
  const last = held && { turn: held.row.last_turn, at: held.row.last_at, id: held.row.last_id };
  const { events, follows } = orderEvents(given, last, () => false);
  const before = held?.standing;
  if (!follows || (held !== undefined && (before === undefined || held.summary === undefined))) return undefined;
  const folding = fold(events, before === undefined ? { of: key } : { after: before });
  const { standing } = folding;
  if (standing === undefined) return undefined;
  const changed = standing.drills.flatMap((drill, place): readonly ChangedDrill[] => {
    const was = before?.drills[place];
    return drill === was ? [] : [{ place, drill, before: was }];
  });
  const touched = touchedBy(
    events,
    changed.map(({ drill }) => drill.drill),
  );
  const summary = summarise(events, folding, { before: held?.summary, touched: touched.drills })!;
  const after = rowAfter(key, { held, events, standing });
  const rows = events.map((event) => eventRow(key, event));
  return {
    write: {
      before: held?.row,
      after,
      events: rows,
      drills: changed.map(({ place, drill }) => drillRow(key, place, drill)),
      rungs: changed.flatMap(({ place, drill, before: was }) => rungRows(key, place, { drill, before: was })),
      summary: summaryRows(key, { summary, standing, touched }),
    },
    held: { row: after, standing, summary },
  };
}

function rowAfter(
  key: JournalKey,
  {
    held,
    events,
    standing,
  }: { readonly held: Held | undefined; readonly events: readonly JournalEvent[]; readonly standing: Standing },
): JournalRow {
  const last = events.at(-1)!;
  return {
    student: keyText(key.student),
    curriculum: keyText(key.curriculum),
    revision: (held?.row.revision ?? 0) + 1,
    events: (held?.row.events ?? 0) + events.length,
    last_turn: last.turn,
    last_at: last.at,
    last_id: last.id,
    ...standingColumns(standing),
  };
}

/** An event as it is kept. */
export function eventRow(key: JournalKey, event: JournalEvent): EventRow {
  const body = canonicalJson(event);
  return {
    student: keyText(key.student),
    curriculum: keyText(key.curriculum),
    turn: event.turn,
    digest: digestOf(body),
    id: keyText(event.id),
    body,
  };
}
