import { type RawBuilder, sql } from "kysely";
import type { DrillStanding, RungStanding, Standing } from "../../schema/index.js";
import type { JournalKey } from "../model.js";
import type { Trx } from "./database.js";
import { keyText } from "./keyText.js";
import { rungRows, rungsOfRows } from "./rungRows.js";
import type { DrillRow, JournalRow } from "./tables.js";

/** The drill of a row and the bodies of the rows of its rungs, in order and with commas between. They are parsed when they are first read. */
export function drillOf(head: string, bodies: string | null): DrillStanding {
  let rungs: readonly RungStanding[] | undefined;
  return {
    ...(JSON.parse(head) as Omit<DrillStanding, "rungs">),
    get rungs() {
      rungs ??= rungsOfRows(JSON.parse(`[${bodies ?? ""}]`));
      return rungs;
    },
  };
}

/** The bodies of the rows of a drill's rungs, in SQL: the drill `d`, and the name of the table of rungs. */
export function bodiesOfRungs(table: RawBuilder<unknown>): RawBuilder<string | null> {
  return sql<string | null>`(select string_agg(r.body, ',' order by r.rung, r.number) from ${table} as r
    where r.student = d.student and r.curriculum = d.curriculum and r.place = d.place)`;
}

/** The standing from the row of a journal and its drills; `undefined` while nobody is enrolled. */
export function standingOf(
  key: JournalKey,
  row: Pick<JournalRow, "edition" | "latest" | "counted">,
  drills: DrillStanding[],
): Standing | undefined {
  if (row.edition === null || row.latest === null || row.counted === null) return undefined;
  const { student, curriculum } = key;
  const latest = JSON.parse(row.latest) as Standing["latest"];
  return { version: 2, student, curriculum, edition: row.edition, latest, events: row.counted, drills };
}

/** The columns in the row of a journal that come from the standing. */
export function standingColumns(standing: Standing | undefined): Pick<JournalRow, "edition" | "latest" | "counted"> {
  if (standing === undefined) return { edition: null, latest: null, counted: null };
  return { edition: standing.edition, latest: JSON.stringify(standing.latest), counted: standing.events };
}

/** Rows per statement: our choice, far below the limits of databases. */
const ROWS = 500;

/** A drill, its place, and how it was before. */
export interface ChangedDrill {
  readonly place: number;
  readonly drill: DrillStanding;
  readonly before?: DrillStanding | undefined;
}

/** Inserts or replaces the drills at these places, and of their rungs what is not as it was. */
export async function writeDrills(trx: Trx, key: JournalKey, drills: readonly ChangedDrill[]): Promise<void> {
  const rows = drills.map(({ place, drill }) => drillRow(key, place, drill));
  for (const some of inPieces(rows, ROWS)) {
    await trx
      .insertInto("leeway_drills")
      .values(some)
      .onConflict((conflict) =>
        conflict.columns(["student", "curriculum", "place"]).doUpdateSet((row) => ({
          drill: row.ref("excluded.drill"),
          head: row.ref("excluded.head"),
        })),
      )
      .execute();
  }
  const rungs = drills.flatMap(({ place, drill, before }) => rungRows(key, place, { drill, before }));
  for (const some of inPieces(rungs, ROWS)) {
    await trx
      .insertInto("leeway_rungs")
      .values(some)
      .onConflict((conflict) =>
        conflict
          .columns(["student", "curriculum", "place", "rung", "number"])
          .doUpdateSet((row) => ({ body: row.ref("excluded.body") })),
      )
      .execute();
  }
}

/** A drill as it is kept, but for its rungs. */
export function drillRow(key: JournalKey, place: number, { rungs: _, ...head }: DrillStanding): DrillRow {
  return {
    student: keyText(key.student),
    curriculum: keyText(key.curriculum),
    place,
    drill: keyText(head.drill),
    head: JSON.stringify(head),
  };
}

/** Splits a list into pieces of at most `size`. */
export function* inPieces<T>(list: readonly T[], size: number): Iterable<readonly T[]> {
  for (let from = 0; from < list.length; from += size) yield list.slice(from, from + size);
}
