import { ENGLISH } from "../../../report/index.js";
import type { JournalEvent, Report } from "../../../schema/index.js";
import { widthAsked } from "../chartDocument.js";
import { LETTERING } from "../lettering.js";
import { element, escapeText, type Svg } from "../svg.js";
import { type Course, climbChart } from "./climbChart.js";
import { driftChart } from "./driftChart.js";
import { placesChart } from "./placesChart.js";
import type { WordedChartOptions } from "./wordedChartOptions.js";

/** The data of a climb chart: a course, and the journal of a student in it. */
export interface ClimbSource {
  readonly course: Course;
  readonly events: readonly JournalEvent[];
}

export interface ReportChartOptions extends WordedChartOptions {
  /** Journals drawn as climb charts first; for a report of one student. */
  readonly climbs?: readonly ClimbSource[];
}

/**
 * The charts of a report one below the other, as one SVG document: where the students are, or the climb of the one there is, and drift in silences
 * over weeks. Throws `RangeError` for a width outside 280 to 2000 px.
 *
 * @example reportChart(report, { width: 720 })
 */
export function reportChart(report: Report, options: ReportChartOptions = {}): Svg {
  const width = widthAsked(options);
  const charts = reportCharts(report, { ...options, width });
  let y = 0;
  const placed = charts.map((svg) => {
    const [, height, inside] = WHOLE.exec(svg)!;
    const piece = element("g", { transform: `translate(0 ${y})`, ...LETTERING }, inside);
    y += Number(height);
    return piece;
  });
  const title = charts.map((svg) => /<title>([^<]*)<\/title>/.exec(svg)![1]!).join(" ");
  const attributes = {
    xmlns: "http://www.w3.org/2000/svg",
    viewBox: `0 0 ${width} ${y}`,
    width,
    height: y,
    role: "img",
  };
  const about = (options.words ?? ENGLISH).say("report.charts");
  return element(
    "svg",
    attributes,
    `<title>${title}</title>${element("desc", {}, escapeText(about))}${placed.join("")}`,
  );
}

/** Matches a chart: its height and its content. */
const WHOLE = /^<svg [^>]*viewBox="0 0 \d+ (\d+)"[^>]*>(.*)<\/svg>$/s;

/** The charts of a report, each a separate document. */
export function reportCharts(report: Report, { climbs = [], ...options }: ReportChartOptions): readonly Svg[] {
  const whose =
    climbs.length > 0
      ? climbs.map(({ course, events }) => climbChart(course, events, options))
      : [placesChart(report, options)];
  return [...whose, driftChart(report, options)];
}
