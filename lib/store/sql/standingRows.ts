import type { DrillStanding, RungStanding, Standing } from "../../schema/index.js";
import type { JournalKey } from "../model.js";
import type { Trx } from "./database.js";
import { keyText } from "./keyText.js";
import type { DrillRow, JournalRow } from "./tables.js";

/** The drill of a row. Its rungs are parsed when they are first read. */
export function drillOf({ head, rungs: text }: Pick<DrillRow, "head" | "rungs">): DrillStanding {
  let rungs: RungStanding[] | undefined;
  return {
    ...(JSON.parse(head) as Omit<DrillStanding, "rungs">),
    get rungs() {
      rungs ??= JSON.parse(text) as RungStanding[];
      return rungs;
    },
  };
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

/** Inserts or replaces the drills at these places. */
export async function writeDrills(
  trx: Trx,
  key: JournalKey,
  drills: readonly (readonly [place: number, drill: DrillStanding])[],
): Promise<void> {
  const rows = drills.map(([place, drill]) => drillRow(key, place, drill));
  for (const some of inPieces(rows, ROWS)) {
    await trx
      .insertInto("leeway_drills")
      .values(some)
      .onConflict((conflict) =>
        conflict.columns(["student", "curriculum", "place"]).doUpdateSet((row) => ({
          drill: row.ref("excluded.drill"),
          head: row.ref("excluded.head"),
          rungs: row.ref("excluded.rungs"),
        })),
      )
      .execute();
  }
}

/** A drill as it is kept. */
export function drillRow(key: JournalKey, place: number, { rungs, ...head }: DrillStanding): DrillRow {
  return {
    student: keyText(key.student),
    curriculum: keyText(key.curriculum),
    place,
    drill: keyText(head.drill),
    head: JSON.stringify(head),
    rungs: JSON.stringify(rungs),
  };
}

/** Splits a list into pieces of at most `size`. */
export function* inPieces<T>(list: readonly T[], size: number): Iterable<readonly T[]> {
  for (let from = 0; from < list.length; from += size) yield list.slice(from, from + size);
}
