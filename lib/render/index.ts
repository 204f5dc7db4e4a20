export { type ChartOptions, type LadderChartOptions, ladderChart, stripChart, takeChart } from "./chart/index.js";
export { type Click, clicksOf } from "./clicks.js";
export { renderCodes } from "./codes.js";
export { fittingOctave } from "./fittingOctave.js";
export { midiOf, studentMidiOf } from "./midi/midi.js";
export {
  type Bracket,
  musicXmlOf,
  type OpenBars,
  type Page,
  type PageBar,
  type PageStaff,
  type Reader,
  type RiffPageOptions,
  riffPage,
  type StaffTransposition,
  scaleWords,
  staffTranspositionOf,
  type TakePageOptions,
  takePage,
} from "./musicxml/index.js";
export type { RenderCode } from "./problem.js";
export { programOf } from "./programs.js";
export { type TickMap, tickMap } from "./tickMap.js";
export { writtenScore } from "./writtenScore.js";
