import { ENGLISH, type RehearsalWords } from "../../../rehearsal/index.js";
import type { RehearsalReport } from "../../../schema/index.js";
import { type ChartOptions, widthAsked } from "../chartDocument.js";
import { stackedCharts } from "../stackedCharts.js";
import type { Svg } from "../svg.js";
import { climbsChart } from "./climbsChart.js";
import { difficultyChart } from "./difficultyChart.js";

/** Options of the charts of a rehearsal. */
export interface RehearsalChartOptions extends Pick<ChartOptions, "width"> {
  /** The language of the charts; English when left out. */
  readonly words?: RehearsalWords;
}

/**
 * The charts of a rehearsal one below the other, as one SVG document: the climbs of up to a hundred students, and how hard each rung is on arrival, beside the old edition
 * where there is one. The same report gives the same text. Throws `RangeError` for a width outside 280 to 2000 px.
 *
 * @example
 * const ready = prepareRehearsal(course, { drills: [] });
 * const part = rehearsePart([ready], { from: 0, count: 3 });
 * rehearsalChart(rehearsalReport(part, frameOf(ready.course), reportTerms(ready, "drawn")), { width: 720 });
 */
export function rehearsalChart(report: RehearsalReport, options: RehearsalChartOptions = {}): Svg {
  const { words = ENGLISH } = options;
  const width = widthAsked(options);
  const charts = [climbsChart(report, { width, words }), difficultyChart(report, { width, words })];
  return stackedCharts(charts, { width, about: words.say("rehearsal.caution") });
}
