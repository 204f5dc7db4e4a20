import { add, compare, divide, type Fraction, floor, fraction, multiply, subtract } from "../base/index.js";
import { barLength, beatOf } from "./meter.js";
import type { MeteredBar, Span } from "./model.js";

/** End of a span that begins at `from`, over bars of changing meter. Before the first and after the last bar, their meters continue. */
export function spanEnd(span: Span, from: Fraction, bars: readonly MeteredBar[]): Fraction {
  return moved(from, span, span.count, bars);
}

/** Start of a span that ends at `to`: "1 1/2 bars" before a downbeat is the bar before it and half of the bar before that. */
export function spanStart(span: Span, to: Fraction, bars: readonly MeteredBar[]): Fraction {
  return moved(to, span, { n: -span.count.n, d: span.count.d }, bars);
}

/**
 * The bar that contains `position`. Outside the list, the first or the last bar is repeated. Throws `RangeError` on an empty list.
 *
 * @example
 * meterText(barAt(fraction.of(9, 4), [{ position: fraction.of(0), meter: parseMeter("4/4").value }]).meter) // "4/4"
 */
export function barAt(position: Fraction, bars: readonly MeteredBar[]): MeteredBar {
  const bar = bars[indexAt(position, bars)]!;
  const length = barLength(bar.meter);
  const away = floor(divide(subtract(position, bar.position), length));
  return away === 0 ? bar : { meter: bar.meter, position: add(bar.position, multiply(length, fraction(away))) };
}

function moved(from: Fraction, span: Span, count: Fraction, bars: readonly MeteredBar[]): Fraction {
  if (span.unit === "note") return add(from, count);
  const counts = countsAtBars(bars, span.unit);
  const origin = indexAt(from, bars);
  const within = divide(subtract(from, bars[origin]!.position), unitOf(bars[origin]!, span.unit));
  const there = add(add(counts[origin]!, within), count);
  const target = lastThat(counts, (c) => compare(c, there) <= 0);
  const beyond = subtract(there, counts[target]!);
  return add(bars[target]!.position, multiply(beyond, unitOf(bars[target]!, span.unit)));
}

function indexAt(position: Fraction, bars: readonly MeteredBar[]): number {
  return lastThat(bars, (bar) => compare(bar.position, position) <= 0);
}

/** Number of bars or beats before each bar. */
function countsAtBars(bars: readonly MeteredBar[], unit: "bar" | "beat"): Fraction[] {
  const counts: Fraction[] = [];
  let count = fraction(0);
  for (const bar of bars) {
    counts.push(count);
    count = add(count, divide(barLength(bar.meter), unitOf(bar, unit)));
  }
  return counts;
}

function unitOf(bar: MeteredBar, unit: "bar" | "beat"): Fraction {
  return unit === "bar" ? barLength(bar.meter) : beatOf(bar.meter);
}

/** Binary search: index of the last item for which `holds` is true, when it is true for a first part of the items only; 0 when for none. */
function lastThat<T>(items: readonly T[], holds: (item: T) => boolean): number {
  if (items.length === 0) throw new RangeError("bars are needed to place a span, got none");
  let [low, high] = [0, items.length - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (holds(items[middle]!)) low = middle;
    else high = middle - 1;
  }
  return low;
}
