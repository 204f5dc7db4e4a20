import { toNumber } from "../base/index.js";
import { BINS, type DriftCell, type DriftCells, mergeCounts } from "../progress/index.js";
import type { LengthDrift, WeekDrift } from "../schema/index.js";
import { meterOf, parseSpan, resolveSpan } from "../time/index.js";
import { countIn, quartilesOf } from "./histogram.js";

/** Collects drift and landings by length of silence and week. Memory grows with lengths and weeks, hardly with takes. */
export interface DriftGathering {
  /** Adds what the silences of one journal showed. */
  add(cells: readonly DriftCells[]): void;
  close(): readonly LengthDrift[];
}

type Cell = { -readonly [Key in keyof DriftCell]: DriftCell[Key] };

interface Row {
  readonly length: string | undefined;
  readonly told: LengthDrift["told"];
  readonly weeks: Map<string, Cell>;
}

/** Begins to collect drift. No silences: no lengths. */
export function openDrift(): DriftGathering {
  const rows = new Map<string, Row>();
  return {
    add(cells) {
      for (const { length, told, weeks } of cells) {
        const key = `${told}/${length ?? ""}`;
        const row = rows.get(key) ?? { length, told, weeks: new Map<string, Cell>() };
        rows.set(key, row);
        for (const [week, found] of Object.entries(weeks)) {
          const cell = row.weeks.get(week) ?? openCell();
          row.weeks.set(week, cell);
          addCell(cell, found);
        }
      }
    },
    close: () => [...rows.values()].sort(byLength).map(rowOf),
  };
}

function addCell(into: Cell, cell: DriftCell): void {
  into.takes += cell.takes;
  into.measured += cell.measured;
  into.unmeasured += cell.unmeasured;
  for (const of of ["ms", "percent", "landing"] as const) into[of] = mergeCounts(into[of], cell[of]);
}

function openCell(): Cell {
  return { takes: 0, measured: 0, unmeasured: 0, ms: [], percent: [], landing: [] };
}

function byLength(a: Row, b: Row): number {
  return compareLengths(a.length, b.length) || (a.told < b.told ? -1 : 1);
}

function rowOf({ length, told, weeks }: Row): LengthDrift {
  const inOrder = [...weeks].sort(([a], [b]) => (a < b ? -1 : 1));
  const all = openCell();
  for (const [, cell] of inOrder) addCell(all, cell);
  return {
    ...(length === undefined ? {} : { length }),
    told,
    ...shown(all),
    weeks: inOrder.map(([week, cell]): WeekDrift => ({ week, ...shown(cell) })),
  };
}

function shown({ takes, measured, unmeasured, ms, percent, landing }: Cell): Omit<WeekDrift, "week"> {
  const driftMs = quartilesOf(ms, BINS.ms);
  const driftPercent = quartilesOf(percent, BINS.percent);
  const landingMs = quartilesOf(landing, BINS.ms);
  return {
    takes,
    measured,
    unmeasured,
    ...(driftMs === undefined ? {} : { driftMs }),
    ...(driftPercent === undefined ? {} : { driftPercent }),
    ...(landingMs === undefined ? {} : { landings: { measured: countIn(landing), ms: landingMs } }),
  };
}

/** Meter in which lengths of different units are compared. Only their order rests on it. */
const COMMON = meterOf([4], 4);

/** Order of lengths of silences such as "1/2 bar" and "3 beats": shortest first, unknown ones last. */
export function compareLengths(a: string | undefined, b: string | undefined): number {
  const [left, right] = [wholeNotes(a), wholeNotes(b)];
  if (left !== right) return left < right ? -1 : 1;
  const [one, other] = [a ?? "", b ?? ""];
  return one < other ? -1 : one > other ? 1 : 0;
}

function wholeNotes(length: string | undefined): number {
  const span = length === undefined ? undefined : parseSpan(length);
  return span?.ok ? toNumber(resolveSpan(span.value, COMMON)) : Number.POSITIVE_INFINITY;
}
