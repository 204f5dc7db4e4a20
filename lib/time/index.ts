export { type CalendarDate, type Day, dateOfDay, dateText, dayNumber, dayOf, mondayOf } from "./calendar.js";
export { timeCodes } from "./codes.js";
export { dayOfTime, daysOf, instantOf, isTimestamp } from "./dateTime.js";
export { decimalText, parseDecimal } from "./decimal.js";
export { durationText } from "./duration.js";
export { barLength, beatOf, meterOf, meterText, parseMeter, sameMeter } from "./meter.js";
export type { Meter, MeteredBar, Pace, Span, Swing, Tempo } from "./model.js";
export type { TimeCode } from "./problem.js";
export { secondsAt, secondsOf, wholeNotesIn } from "./seconds.js";
export { parseSpan, readSpan, resolveSpan, spanText } from "./span.js";
export { barAt, spanEnd, spanStart } from "./spanBounds.js";
export { isBinary, pairStart, parseSwing, swingText, swungPosition } from "./swing.js";
export {
  FASTEST_SUBDIVISION,
  FASTEST_SUBDIVISION_EVER,
  HELPFUL_SUBDIVISION,
  SLOWEST_BEAT,
  synchronisationProblems,
} from "./synchronisation.js";
export { beatSeconds, parseBeatUnit, parseTempo, readTempo, tempoIn, tempoText } from "./tempo.js";
