import type { ReportWords } from "../../../report/index.js";
import type { LengthDrift, WeekDrift } from "../../../schema/index.js";
import { grouped } from "../../phrases.js";
import { type Drawn, panelHeading } from "../chartDocument.js";
import { fitted, line, SIZE } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { stroke } from "../symbols.js";
import type { Plot } from "./weekFrame.js";

/** The horizontal layout of weeks. */
export interface Weeks extends Plot {
  /** Width of a week, px. */
  readonly column: number;
  /** End of the scale, per cent of tempo. */
  readonly end: number;
  /** The x coordinate of the middle of a week, from the date of its Monday. */
  readonly x: (week: string) => number;
  readonly isDrawn: (week: string) => boolean;
}

/** Between a heading and its plot, px. */
const HEADING_GAP = 8;
const PLOT = 76;
const WIDEST_BAR = 12;
/** Narrowest week that has a number below it, px. */
const NUMBER_ROOM = 30;

/** Drift in silences of one length over the weeks. */
export function driftPanel(row: LengthDrift, { words, margin, left, room, column, end, x, isDrawn }: Weeks): Drawn {
  const headed = heading(row, { words, left: margin, room: left + room - margin });
  const top = headed.height + HEADING_GAP;
  const middle = top + PLOT / 2;
  const y = (percent: number): number => middle - (percent / end) * (PLOT / 2 - 4);
  const drawn = row.weeks.filter(({ week }) => isDrawn(week));
  const measured = drawn.filter(({ driftPercent }) => driftPercent !== undefined);
  const right = left + room;
  const rule = (percent: number): string => `M${decimal(left)} ${decimal(y(percent))}H${decimal(right)}`;
  const label = (percent: number, text: string): Svg =>
    line(text, left - 8, y(percent) + 4, { size: SIZE.small, fill: INK.muted, anchor: "end" });
  const bars = measured.map((week) => bar(week, { x: x(week.week), width: Math.min(WIDEST_BAR, column * 0.6), y }));
  const dots = measured.map(({ week, driftPercent }) => {
    const radius = Math.max(1.6, Math.min(4, column * 0.3));
    const place = { cx: x(week), cy: y(driftPercent!.median), r: radius };
    return row.told === "each silence"
      ? element("circle", { ...place, fill: INK.within })
      : element("circle", { ...place, fill: INK.paper, stroke: INK.within, "stroke-width": 1.6 });
  });
  const hasNumbers = column >= NUMBER_ROOM;
  const bottom = top + PLOT;
  const numbers = hasNumbers
    ? drawn.map((week) =>
        line(fitted(grouped(week.measured), column, { size: SIZE.small }), x(week.week), bottom + SIZE.small + 1, {
          size: SIZE.small,
          fill: INK.muted,
          anchor: "middle",
        }),
      )
    : [];
  const pieces = [
    headed.svg,
    stroke(rule(end) + rule(-end), INK.hair, { width: 0.8 }),
    stroke(rule(0), INK.muted, { width: 1 }),
    ...axisLabels(end, words).map((text, i) => label((1 - i) * end, text)),
    ...bars,
    ...dots,
    ...numbers,
  ];
  return { svg: pieces.join(""), height: bottom + (hasNumbers ? SIZE.small + 4 : 2) };
}

/** What stands beside the top, the middle and the bottom of a panel that ends at so many per cent. */
export function axisLabels(end: number, { say }: ReportWords): readonly [string, string, string] {
  const percent = grouped(end);
  return [
    say("report.rate", { percent, side: "slow" }),
    say("report.in-tempo"),
    say("report.rate", { percent, side: "fast" }),
  ];
}

/** The length "1/2 bar", with an aside when only the largest drift of each take is known. */
export function lengthText({ length, told }: LengthDrift, { say }: ReportWords): string {
  return say("report.length", {
    length: length ?? say("report.length-unknown"),
    told: told === "each silence" ? "each-silence" : "largest",
  });
}

function heading(row: LengthDrift, { words, left, room }: Pick<Plot, "words" | "left" | "room">): Drawn {
  const silences = { silences: row.measured, shown: grouped(row.measured) };
  const aside =
    row.unmeasured === 0
      ? words.say("report.measured", silences)
      : words.say("report.measured-and-not", { ...silences, unmeasured: grouped(row.unmeasured) });
  return panelHeading(lengthText(row, words), aside, { left, room, fill: INK.muted });
}

function bar(
  { driftPercent }: WeekDrift,
  { x, width, y }: { readonly x: number; readonly width: number; readonly y: (percent: number) => number },
): Svg {
  const { low, high } = driftPercent!;
  const top = y(high);
  return element("rect", {
    x: x - width / 2,
    y: top,
    width,
    height: Math.max(1, y(low) - top),
    fill: INK.band,
    stroke: INK.within,
    "stroke-width": 0.8,
  });
}
