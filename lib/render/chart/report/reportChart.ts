import { ENGLISH } from "../../../report/index.js";
import type { JournalEvent, Report } from "../../../schema/index.js";
import { widthAsked } from "../chartDocument.js";
import { stackedCharts } from "../stackedCharts.js";
import type { Svg } from "../svg.js";
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
  return stackedCharts(charts, { width, about: (options.words ?? ENGLISH).say("report.charts") });
}

/** The charts of a report, each a separate document. */
export function reportCharts(report: Report, { climbs = [], ...options }: ReportChartOptions): readonly Svg[] {
  const whose =
    climbs.length > 0
      ? climbs.map(({ course, events }) => climbChart(course, events, options))
      : [placesChart(report, options)];
  return [...whose, driftChart(report, options)];
}
