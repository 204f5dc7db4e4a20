import { silencesOf } from "../progress/index.js";
import type { LengthDrift, TakeAssessed, WeekDrift } from "../schema/index.js";
import { compareLengths } from "./lengthOrder.js";
import { weekOf } from "./moment.js";
import { openTally, spreadOf, type Tally, tally } from "./tally.js";

/** Drift is tallied in whole milliseconds and tenths of a per cent of tempo: our choice, below what a take resolves (some 10 ms). */
const STEP_MS = 1;
const STEP_PERCENT = 0.1;

/** Gathers what takes tell of drift by length of silence and week, in memory that grows with lengths and weeks, hardly with takes. */
export interface DriftGathering {
  add(take: TakeAssessed): void;
  close(): readonly LengthDrift[];
}

interface Cell {
  takes: number;
  measured: number;
  unmeasured: number;
  readonly ms: Tally;
  readonly percent: Tally;
}

interface Row {
  readonly length: string | undefined;
  readonly told: LengthDrift["told"];
  readonly all: Cell;
  readonly weeks: Map<string, Cell>;
}

export function openDrift(): DriftGathering {
  const rows = new Map<string, Row>();
  return {
    add(take) {
      const kept = silencesOf(take);
      if (kept === undefined) return;
      const { length, told } = kept;
      const key = `${told}/${length ?? ""}`;
      const row = rows.get(key) ?? { length, told, all: openCell(), weeks: new Map<string, Cell>() };
      rows.set(key, row);
      const week = weekOf(take.at);
      const cell = row.weeks.get(week) ?? openCell();
      row.weeks.set(week, cell);
      // A remark says that the take can be read in another way too, or shows nothing of keeping time alone.
      const isDoubtful = take.reasons !== undefined;
      for (const each of [row.all, cell]) {
        each.takes++;
        for (const { driftMs, driftPercent } of kept.silences) {
          const isMeasured = !isDoubtful && driftMs !== undefined && driftPercent !== undefined;
          if (isMeasured) tally(each.ms, driftMs);
          if (isMeasured) tally(each.percent, driftPercent);
          if (isMeasured) each.measured++;
          else each.unmeasured++;
        }
      }
    },
    close: () => [...rows.values()].sort(byLength).map(rowOf),
  };
}

function openCell(): Cell {
  return { takes: 0, measured: 0, unmeasured: 0, ms: openTally(STEP_MS), percent: openTally(STEP_PERCENT) };
}

function byLength(a: Row, b: Row): number {
  return compareLengths(a.length, b.length) || (a.told < b.told ? -1 : 1);
}

function rowOf({ length, told, all, weeks }: Row): LengthDrift {
  const inOrder = [...weeks].sort(([a], [b]) => (a < b ? -1 : 1));
  return {
    ...(length === undefined ? {} : { length }),
    told,
    ...shown(all),
    weeks: inOrder.map(([week, cell]): WeekDrift => ({ week, ...shown(cell) })),
  };
}

function shown({ takes, measured, unmeasured, ms, percent }: Cell): Omit<WeekDrift, "week"> {
  const driftMs = spreadOf(ms);
  const driftPercent = spreadOf(percent);
  return {
    takes,
    measured,
    unmeasured,
    ...(driftMs === undefined ? {} : { driftMs }),
    ...(driftPercent === undefined ? {} : { driftPercent }),
  };
}
