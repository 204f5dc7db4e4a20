import type { TakeAssessed } from "../../schema/index.js";
import { type KeptSilence, type KeptSilences, silencesOf } from "../journal/keptSilences.js";
import { weekOf } from "./calendarDays.js";

/** Bins of drift and of landings: whole milliseconds and tenths of a per cent of tempo. Our choice, below what a take resolves (some 10 ms). */
export const BINS = { ms: 1, percent: 0.1 } as const;

/**
 * How often each value came: the number of its bin, then the count, bin after bin in order. It stays small for any number of values, and those of the same bins add up exactly.
 */
export type Counts = readonly number[];

/** What the silences of one length showed in one week. */
export interface DriftCell {
  readonly takes: number;
  readonly measured: number;
  readonly unmeasured: number;
  readonly ms: Counts;
  readonly percent: Counts;
  /** Milliseconds at the landings that were measured. */
  readonly landing: Counts;
}

/** What the silences of one length showed, week by week. */
export interface DriftCells {
  /** Absent: not known. */
  readonly length?: string;
  readonly told: KeptSilences["told"];
  /** By the Monday of the week. */
  readonly weeks: Readonly<Record<string, DriftCell>>;
}

type Open<T> = { -readonly [Key in keyof T]: T[Key] };
type OpenCell = Open<DriftCell> & Record<"ms" | "percent" | "landing", number[]>;

/** Cells in the making. */
export interface OpenCells {
  /** Adds a take to the cells of its silences; those of a take without silences stay as they are. */
  add(take: TakeAssessed): void;
  /** All cells, by length and how they were told. */
  close(): readonly DriftCells[];
}

/** Goes on from some cells, which stay as they are. */
export function openCells(before: readonly DriftCells[] = []): OpenCells {
  const rows = before.map((row) => ({ ...row, weeks: { ...row.weeks } }));
  const own = new Set<DriftCell>();
  return {
    add: (take) => addToCells({ rows, own }, take),
    close: () => rows.sort((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1)),
  };
}

interface Making {
  readonly rows: (DriftCells & { readonly weeks: Record<string, DriftCell> })[];
  /** The cells that may be written to; all others are copied first. */
  readonly own: Set<DriftCell>;
}

function nameOf({ length, told }: Pick<DriftCells, "length" | "told">): string {
  return JSON.stringify([length, told]);
}

function addToCells(making: Making, take: TakeAssessed): void {
  const kept = silencesOf(take);
  if (kept === undefined) return;
  // Reasons say that the take can be read in another way too, or shows nothing of keeping time alone.
  const isDoubtful = take.reasons !== undefined;
  const lengths = kept.silences.length === 0 ? [kept.length] : kept.silences.map(({ length }) => length);
  for (const length of new Set(lengths)) {
    const cell = cellFor(making, { length, told: kept.told }, weekOf(take.at));
    cell.takes++;
    for (const silence of kept.silences)
      if (silence.length === length) addSilence(cell, silence, { isDoubtful, told: kept.told });
  }
}

function addSilence(
  cell: OpenCell,
  { driftMs, driftPercent, landingMs }: KeptSilence,
  { isDoubtful, told }: { readonly isDoubtful: boolean; readonly told: KeptSilences["told"] },
): void {
  if (isDoubtful || driftMs === undefined || driftPercent === undefined) cell.unmeasured++;
  else {
    cell.measured++;
    count(cell.ms, driftMs, BINS.ms);
    count(cell.percent, driftPercent, BINS.percent);
  }
  // The largest of a take is no landing among others.
  if (!isDoubtful && landingMs !== undefined && told === "each silence") count(cell.landing, landingMs, BINS.ms);
}

function count(into: number[], value: number, bin: number): void {
  const number = Math.round(value / bin) + 0;
  let [low, high] = [0, into.length / 2];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (into[2 * middle]! < number) low = middle + 1;
    else high = middle;
  }
  if (into[2 * low] === number) into[2 * low + 1]!++;
  else into.splice(2 * low, 0, number, 1);
}

/** The counts of two together. */
export function mergeCounts(a: Counts, b: Counts): Counts {
  if (a.length === 0) return b;
  const merged: number[] = [];
  let [i, j] = [0, 0];
  while (i < a.length && j < b.length) {
    const [left, right] = [a[i]!, b[j]!];
    if (left === right) merged.push(left, a[i + 1]! + b[j + 1]!);
    else if (left < right) merged.push(left, a[i + 1]!);
    else merged.push(right, b[j + 1]!);
    if (left <= right) i += 2;
    if (right <= left) j += 2;
  }
  while (i < a.length) merged.push(a[i++]!);
  while (j < b.length) merged.push(b[j++]!);
  return merged;
}

function cellFor(
  { rows, own }: Making,
  { length, told }: { readonly length: string | undefined; readonly told: KeptSilences["told"] },
  week: string,
): OpenCell {
  let row = rows.find((each) => each.length === length && each.told === told);
  if (row === undefined) {
    row = { ...(length === undefined ? {} : { length }), told, weeks: {} };
    rows.push(row);
  }
  const before = row.weeks[week];
  if (before !== undefined && own.has(before)) return before as OpenCell;
  const { takes = 0, measured = 0, unmeasured = 0, ms = [], percent = [], landing = [] } = before ?? {};
  const cell = { takes, measured, unmeasured, ms: [...ms], percent: [...percent], landing: [...landing] };
  own.add(cell);
  row.weeks[week] = cell;
  return cell;
}
