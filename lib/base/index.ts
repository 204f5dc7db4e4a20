export { arithmetic } from "./arithmetic.js";
export { type AsideOptions, asideText } from "./asideText.js";
export { type Beating, beatAt, beatsBetween, beatsOver, meanBeat } from "./beatsInTake.js";
export { CAUTION, CAUTIONS, CLICK_CAUTION } from "./cautions.js";
export { columnsOf, padColumns } from "./columns.js";
export { type Cell, csvRow } from "./csvRow.js";
export type { Fraction } from "./fraction.js";
export {
  add,
  compare,
  divide,
  equals,
  floor,
  fraction,
  fractionText,
  gcd,
  multiply,
  negate,
  ONE,
  parseFraction,
  subtract,
  toNumber,
  ZERO,
} from "./fraction.js";
export { LANDING_WITHIN_BEATS } from "./landing.js";
export type { Message, MessageText, Phrase, Worded } from "./message.js";
export { nearestName } from "./nearestName.js";
export { notInstalled } from "./notInstalled.js";
export type {
  Place,
  Problem,
  ProblemCatalogue,
  ProblemWords,
} from "./problem.js";
export { placedUnder, problemsOf } from "./problem.js";
export { problemInside } from "./problemInside.js";
export type { Random } from "./random.js";
export { random } from "./random.js";
export { renamedTo } from "./renamed.js";
export type { Failure, Result, Success } from "./result.js";
export { failure, failureIn, problemsIn, resultOf, success } from "./result.js";
export type { Beats, Bpm, Milliseconds, MillisecondsPerRootBeat, Percent, Seconds, Written } from "./units.js";
export { beats, bpm, milliseconds, percent, seconds, toMilliseconds, toSeconds } from "./units.js";
