import type { ScaleLinear } from "d3-scale";
import type { Finding, Score, Take } from "../../../schema/index.js";
import type { TracePoint } from "../../../take/index.js";
import { phrasesOf, type Span } from "../phrases.js";
import type { ChartWords } from "../words.js";

/** The data of a take chart. */
export interface TakePicture {
  readonly score: Score;
  readonly finding: Finding;
  readonly trace: readonly TracePoint[];
  /** The time of each onset, seconds from the downbeat of bar 1. */
  readonly played: readonly number[];
  readonly words: ChartWords;
}

/** The scales of one row: time to x, asynchrony to y, px. */
export interface Place {
  readonly x: (at: number) => number;
  readonly top: number;
  readonly y: ScaleLinear<number, number>;
}

/** Narrowest bar in which a silence of half a bar is legible, px. */
const NARROWEST_BAR = 28;
/** In bars narrower than this, px, notes are not drawn one by one (our choice: two eighths would share four pixels). */
export const CROWDED_BAR = 14;
/** Most rows: a longer take has narrower bars, so that the size of the drawing is bounded. */
const MOST_ROWS = 6;

/** The time spans of the rows of a take: whole bars, about the same number in each row. */
export function takeRows(score: Score, room: number): Span[] {
  const bars = phrasesOf(score).flatMap((phrase) => phrase.bars);
  const perRow = Math.max(1, Math.floor(room / NARROWEST_BAR), Math.ceil(bars.length / MOST_ROWS));
  const rows = Math.ceil(bars.length / perRow);
  const even = Math.ceil(bars.length / rows);
  return Array.from({ length: Math.ceil(bars.length / even) }, (_, i) => {
    const own = bars.slice(i * even, (i + 1) * even);
    return { from: own[0]!.from, to: own.at(-1)!.to };
  });
}

/** The time of each onset of a take in the time of the score, seconds, known latency subtracted; in the order given. */
export function onsetTimes(score: Score, take: Take): number[] {
  const start = ((take.zero ?? "count-in") === "count-in" ? score.countIn : 0) + (take.latencyMs ?? 0) / 1000;
  return take.onsets.map((onset) => (typeof onset === "number" ? onset : onset.at) - start);
}

/** A point of the confidence band: time in seconds, mean and limits in ms. */
export interface BandPoint {
  readonly at: number;
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** Half the width of a 95 % interval of the normal distribution, in standard deviations. */
const NINETY_FIVE = 1.96;

/** The band in a row, cut at its ends. When it has more than twice `columns` points, it has one for each column: the mean and the outermost limits. */
export function bandIn(trace: readonly TracePoint[], row: Span, columns: number): BandPoint[] {
  const first = Math.max(
    0,
    trace.findLastIndex(({ at }) => at <= row.from),
  );
  const after = trace.findIndex(({ at }) => at >= row.to);
  const inside = trace.slice(first, after < 0 ? trace.length : after + 1).map(bandPoint);
  const cut = inside.flatMap((point, i) => {
    const [before, next] = [inside[i - 1], inside[i + 1]];
    if (point.at < row.from) return next === undefined ? [] : [between(point, next, row.from)];
    if (point.at > row.to) return before === undefined ? [] : [between(before, point, row.to)];
    return [point];
  });
  if (cut.length <= 2 * columns) return cut;
  const binned = new Map<number, BandPoint[]>();
  for (const point of cut) {
    const column = Math.min(columns - 1, Math.floor(((point.at - row.from) / (row.to - row.from)) * columns));
    binned.set(column, [...(binned.get(column) ?? []), point]);
  }
  return [...binned].map(([column, points]) => ({
    at: row.from + ((column + 0.5) / columns) * (row.to - row.from),
    mean: points.reduce((sum, { mean }) => sum + mean, 0) / points.length,
    low: Math.min(...points.map(({ low }) => low)),
    high: Math.max(...points.map(({ high }) => high)),
  }));
}

/** A point of the trace with the limits of its 95 % interval. */
export function bandPoint({ at, asynchronyMs, sdMs }: TracePoint): BandPoint {
  return { at, mean: asynchronyMs, low: asynchronyMs - NINETY_FIVE * sdMs, high: asynchronyMs + NINETY_FIVE * sdMs };
}

/** The band between two points by linear interpolation. */
function between(a: BandPoint, b: BandPoint, at: number): BandPoint {
  const share = b.at === a.at ? 0 : Math.min(1, Math.max(0, (at - a.at) / (b.at - a.at)));
  const mix = (p: number, q: number): number => p + share * (q - p);
  return { at, mean: mix(a.mean, b.mean), low: mix(a.low, b.low), high: mix(a.high, b.high) };
}

/** The asynchrony of a trace at a time, ms; `undefined` for an empty trace. */
export function traceAt(trace: readonly TracePoint[], at: number): number | undefined {
  const next = trace.findIndex((point) => point.at >= at - 1e-9);
  if (next < 0) return trace.at(-1)?.asynchronyMs;
  const b = bandPoint(trace[next]!);
  return between(next === 0 ? b : bandPoint(trace[next - 1]!), b, at).mean;
}
