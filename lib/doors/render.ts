/** The door of rendering without heavy parts: charts, MIDI, MusicXML, the page of a report. Sheets and sound have doors of their own. */
export {
  type ChartOptions,
  type LadderChartOptions,
  ladderChart,
  type ReportChartOptions,
  reportChart,
  type SoundPicture,
  soundChart,
  stripChart,
  type TextStripOptions,
  takeChart,
  textStrip,
  textStripKey,
  textTake,
} from "../render/chart/index.js";
export {
  type Click,
  clicksOf,
  midiOf,
  musicXmlOf,
  type Page,
  type Reader,
  type RenderCode,
  type RiffPageOptions,
  renderCodes,
  riffPage,
  studentMidiOf,
  type TakePageOptions,
  takePage,
  writtenScore,
} from "../render/index.js";
export { reportPage } from "../render/report/index.js";
