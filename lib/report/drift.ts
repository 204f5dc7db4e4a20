import { toNumber } from "../base/index.js";
import { type KeptSilence, silencesOf } from "../progress/index.js";
import type { LengthDrift, TakeAssessed, WeekDrift } from "../schema/index.js";
import { meterOf, parseSpan, resolveSpan } from "../time/index.js";
import { weekOf } from "./calendarDays.js";
import { addTo, type Histogram, openHistogram, quartilesOf } from "./histogram.js";

/** Bins of drift: whole milliseconds and tenths of a per cent of tempo. Our choice, below what a take resolves (some 10 ms). */
const STEP_MS = 1;
const STEP_PERCENT = 0.1;

/** Collects drift by length of silence and week. Memory grows with lengths and weeks, hardly with takes. */
export interface DriftGathering {
  add(take: TakeAssessed): void;
  close(): readonly LengthDrift[];
}

interface Cell {
  takes: number;
  measured: number;
  unmeasured: number;
  readonly ms: Histogram;
  readonly percent: Histogram;
}

interface Row {
  readonly length: string | undefined;
  readonly told: LengthDrift["told"];
  readonly all: Cell;
  readonly weeks: Map<string, Cell>;
}

/** Begins to collect drift. No takes: no lengths. */
export function openDrift(): DriftGathering {
  const rows = new Map<string, Row>();
  /** The cells of a length: of all weeks, and of one. */
  const cellsOf = ({ length, told }: Pick<Row, "length" | "told">, week: string): readonly Cell[] => {
    const key = `${told}/${length ?? ""}`;
    const row = rows.get(key) ?? { length, told, all: openCell(), weeks: new Map<string, Cell>() };
    rows.set(key, row);
    const cell = row.weeks.get(week) ?? openCell();
    row.weeks.set(week, cell);
    return [row.all, cell];
  };
  return {
    add(take) {
      const kept = silencesOf(take);
      if (kept === undefined) return;
      // Reasons say that the take can be read in another way too, or shows nothing of keeping time alone.
      const isDoubtful = take.reasons !== undefined;
      const lengths = kept.silences.length === 0 ? [kept.length] : kept.silences.map(({ length }) => length);
      for (const length of new Set(lengths)) {
        const silences = kept.silences.filter((silence) => silence.length === length);
        for (const cell of cellsOf({ length, told: kept.told }, weekOf(take.at)))
          addSilences(cell, silences, isDoubtful);
      }
    },
    close: () => [...rows.values()].sort(byLength).map(rowOf),
  };
}

/** Counts a take and its silences of one length. */
function addSilences(cell: Cell, silences: readonly KeptSilence[], isDoubtful: boolean): void {
  cell.takes++;
  for (const { driftMs, driftPercent } of silences) {
    const isMeasured = !isDoubtful && driftMs !== undefined && driftPercent !== undefined;
    if (isMeasured) addTo(cell.ms, driftMs);
    if (isMeasured) addTo(cell.percent, driftPercent);
    if (isMeasured) cell.measured++;
    else cell.unmeasured++;
  }
}

function openCell(): Cell {
  return { takes: 0, measured: 0, unmeasured: 0, ms: openHistogram(STEP_MS), percent: openHistogram(STEP_PERCENT) };
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
  const driftMs = quartilesOf(ms);
  const driftPercent = quartilesOf(percent);
  return {
    takes,
    measured,
    unmeasured,
    ...(driftMs === undefined ? {} : { driftMs }),
    ...(driftPercent === undefined ? {} : { driftPercent }),
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
