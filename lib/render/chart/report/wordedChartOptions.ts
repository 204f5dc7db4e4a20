import type { ReportWords } from "../../../report/index.js";
import type { ChartOptions } from "../chartDocument.js";

/** Options of each chart of a report. */
export interface WordedChartOptions extends Pick<ChartOptions, "width"> {
  /** The language of the chart; English when left out. */
  readonly words?: ReportWords;
}
