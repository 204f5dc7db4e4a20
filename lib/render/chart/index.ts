export { type Course, climbChart } from "./climbChart.js";
export { type LadderChartOptions, ladderChart } from "./ladderChart.js";
export type { ChartOptions } from "./sheet.js";
export { type SoundPicture, soundChart } from "./soundChart.js";
export { stripChart } from "./stripChart.js";
export { takeChart } from "./takeChart.js";
export { passStrip, type TextStripOptions, textStrip, textStripKey } from "./textStrip.js";
export { driftGauge, textTake } from "./textTake.js";
