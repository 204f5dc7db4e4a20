import { dayText } from "../../phrases.js";
import { type Drawn, marginOf, stacked } from "../chartDocument.js";
import { line, SIZE } from "../lettering.js";
import { INK } from "../palette.js";
import type { Svg } from "../svg.js";
import { stroke, upright } from "../symbols.js";

/** Smallest distance between dates, px, and the possible ones in weeks. */
const DATE_ROOM = 48;
const WEEKS_BETWEEN = [1, 2, 4, 8, 13, 26, 52, 520] as const;
/** Room that a date takes, px. */
const DATE_WIDTH = 40;

/** Where the panels of a chart stand: beside their labels, between the margins; px. */
export interface Plot {
  readonly margin: number;
  readonly left: number;
  readonly room: number;
}

/** The plot of a chart of this width, beside labels of this width. */
export function plotBeside(labels: number, width: number): Plot {
  const margin = marginOf(width);
  return { margin, left: margin + labels, room: width - 2 * margin - labels };
}

/** Days from left to right, counted from 1 January 1970. */
export interface DayAxis extends Plot {
  /** The x coordinate of the beginning of a day. */
  readonly x: (day: number) => number;
  /** Days whose date is written. */
  readonly dates: readonly number[];
}

/** The days from a Monday to the day `until`, which is not drawn any more. */
export function dayAxis(plot: Plot, first: number, until: number): DayAxis {
  const perDay = plot.room / (until - first);
  const between = WEEKS_BETWEEN.find((weeks) => 7 * weeks * perDay >= DATE_ROOM) ?? WEEKS_BETWEEN.at(-1)!;
  const dates: number[] = [];
  for (let day = first; day < until; day += 7 * between) dates.push(day);
  return { ...plot, x: (day) => plot.left + (day - first) * perDay, dates };
}

/** Panels one below the other, the dates below them, and sentences about what is not drawn. */
export function overWeeks(
  panels: readonly Drawn[],
  { margin, left, room, x, dates }: DayAxis,
  { gap, asides }: { readonly gap: number; readonly asides: readonly string[] },
): Drawn {
  const drawn = stacked(panels, gap);
  const muted = { size: SIZE.small, fill: INK.muted } as const;
  const pieces: Svg[] = [drawn.svg];
  let y = drawn.height + 6;
  for (const day of dates.filter((each, i) => i === 0 || x(each) <= left + room - DATE_WIDTH))
    pieces.push(
      stroke(upright(x(day), y, y + 4), INK.muted, { width: 0.8 }),
      line(dayText(day), x(day), y + SIZE.small + 5, muted),
    );
  y += SIZE.small + 9;
  for (const aside of asides) {
    y += SIZE.small + 5;
    pieces.push(line(aside, margin, y - 2, muted));
  }
  return { svg: pieces.join(""), height: y };
}
