import { ENGLISH, type ReportWords } from "../../../report/index.js";
import type { LengthDrift, Report, WeekDrift } from "../../../schema/index.js";
import { daysOf } from "../../../time/index.js";
import { grouped } from "../../phrases.js";
import { type ChartText, chartDocument, type KeyEntry, widthAsked } from "../chartDocument.js";
import { labelRoom, line, SIZE } from "../lettering.js";
import { INK } from "../palette.js";
import { element, type Svg } from "../svg.js";
import { axisLabels, driftPanel, lengthText, type Weeks } from "./driftPanel.js";
import { dayAxis, overWeeks, plotBeside } from "./weekFrame.js";
import type { WordedChartOptions } from "./wordedChartOptions.js";

/** Least room for the labels of the axis, px. */
const LABELS = 68;
const PANEL_GAP = 16;
/** Most lengths; the chart states how many are left out. */
const MOST_PANELS = 10;
/** Narrowest column of a week, px. */
const NARROWEST_WEEK = 6;
/** Possible ends of the scale, per cent of tempo: our choice, so that small drifts do not look large. */
const ENDS = [2, 5, 10, 20, 50, 100, 200, 500, 1000, 10_000] as const;

/**
 * Drift in silences of each length over the weeks, as an SVG document: for every length a row, for every week the median (a dot) and the middle half of
 * the silences (a bar) in per cent of tempo; above the line is dragging, below it rushing.
 *
 * Drawn at `width` px (280 to 2000), at most ten lengths and the latest weeks there is room for; what is left out is said. The same report gives the
 * same text. Without silences it says so. Throws `RangeError` for another width.
 *
 * @example driftChart(report, { width: 360 })
 */
export function driftChart({ drift }: Pick<Report, "drift">, options: WordedChartOptions = {}): Svg {
  const width = widthAsked(options);
  const mondays = drift.flatMap(({ weeks }) => weeks.map(({ week }) => dayOfWeek(week)));
  const { words = ENGLISH } = options;
  const text = textOf(drift, words);
  if (mondays.length === 0) return chartDocument(text, { svg: "", height: 0 }, { width, key: [] });
  const plot = plotBeside(labelRoom(axisLabels(endOf(drift), words), LABELS), width, words);
  const last = latest(mondays);
  const most = Math.floor(plot.room / NARROWEST_WEEK);
  const first = Math.max(earliest(mondays), last - 7 * (most - 1));
  const axis = dayAxis(plot, first, last + 7);
  const weeks: Weeks = {
    ...plot,
    column: axis.x(first + 7) - axis.x(first),
    end: endOf(drift),
    x: (week) => axis.x(dayOfWeek(week) + 3.5),
    isDrawn: (week) => dayOfWeek(week) >= first,
  };
  const body = overWeeks(
    drift.slice(0, MOST_PANELS).map((row) => driftPanel(row, weeks)),
    axis,
    { gap: PANEL_GAP, asides: asides(drift, first > earliest(mondays), words) },
  );
  return chartDocument(text, body, { width, key: keyOf(drift, words) });
}

function dayOfWeek(week: string): number {
  return daysOf(`${week}T00:00`);
}

function latest(days: readonly number[]): number {
  return days.reduce((most, day) => Math.max(most, day));
}

function earliest(days: readonly number[]): number {
  return days.reduce((least, day) => Math.min(least, day));
}

function endOf(drift: readonly LengthDrift[]): number {
  const weeks = drift.flatMap((row) => row.weeks);
  const furthest = weeks.reduce(
    (most, { driftPercent }) => Math.max(most, Math.abs(driftPercent?.low ?? 0), Math.abs(driftPercent?.high ?? 0)),
    0,
  );
  return ENDS.find((end) => end >= furthest) ?? Math.ceil(furthest);
}

function asides(drift: readonly LengthDrift[], isCut: boolean, { say }: ReportWords): readonly string[] {
  const undrawn = drift.length - MOST_PANELS;
  return [
    ...(undrawn > 0 ? [say("report.longer-silences", { silences: undrawn, shown: grouped(undrawn) })] : []),
    ...(isCut ? [say("report.earlier-weeks")] : []),
  ];
}

function textOf(drift: readonly LengthDrift[], words: ReportWords): ChartText {
  const { say } = words;
  const told = drift.filter(({ measured }) => measured > 0);
  const subject = say("report.drift-subject");
  if (told.length === 0) return { title: say("report.no-drift"), subject, description: say("report.no-silences") };
  const main = told.reduce((most, row) => (row.measured > most.measured ? row : most));
  const weeks = main.weeks.filter(({ measured }) => measured > 0);
  const [first, last] = [weeks[0]!, weeks.at(-1)!];
  const length = lengthText(main, words);
  const title =
    weeks.length === 1
      ? say("report.drift-in-one-week", { length, drift: rateText(first, words), count: `${main.measured}` })
      : say("report.drift-over-weeks", { length, first: rateText(first, words), last: rateText(last, words) });
  return {
    title,
    subject,
    description: told
      .slice(0, MOST_PANELS)
      .map((row) =>
        say("report.drift-row", {
          length: lengthText(row, words),
          drift: rateText(row, words),
          count: `${row.measured}`,
          unmeasured: `${row.unmeasured}`,
        }),
      )
      .join(" "),
  };
}

/** "2.1 % fast". */
function rateText({ driftPercent }: Pick<WeekDrift, "driftPercent">, { say }: ReportWords): string {
  const { median } = driftPercent!;
  const figure = Math.round(10 * Math.abs(median)) / 10;
  if (figure === 0) return say("report.in-tempo");
  const percent = say("report.one-decimal", { figure });
  return say("report.rate", { percent, side: median < 0 ? "fast" : "slow" });
}

function keyOf(drift: readonly LengthDrift[], { say }: ReportWords): (KeyEntry | false)[] {
  const has = (told: LengthDrift["told"]): boolean => drift.some((row) => row.told === told);
  return [
    has("each silence") && {
      mark: (x, y) => element("circle", { cx: x + 10, cy: y - 5, r: 3.5, fill: INK.within }),
      means: say("report.drift-in-key", { mark: "median" }),
    },
    has("largest of a take") && {
      mark: (x, y) =>
        element("circle", { cx: x + 10, cy: y - 5, r: 3.2, fill: INK.paper, stroke: INK.within, "stroke-width": 1.6 }),
      means: say("report.drift-in-key", { mark: "largest" }),
    },
    {
      mark: (x, y) =>
        element("rect", {
          x: x + 7,
          y: y - 10,
          width: 6,
          height: 11,
          fill: INK.band,
          stroke: INK.within,
          "stroke-width": 0.8,
        }),
      means: say("report.drift-in-key", { mark: "middle-half" }),
    },
    {
      mark: (x, y) => line("12", x + 10, y, { size: SIZE.small, anchor: "middle" }),
      means: say("report.drift-in-key", { mark: "count" }),
    },
  ];
}
