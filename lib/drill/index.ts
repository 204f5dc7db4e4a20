export { smallestShiftHeard } from "./checkTolerance.js";
export { drillCodes } from "./codes.js";
export { compileDrill, type DrillContext } from "./compileDrill.js";
export { type DriftEvidence, driftError, type PlayerNoise, SEASONED_PLAYER } from "./driftError.js";
export { findRung } from "./findRung.js";
export { ladderStep, ladderValue } from "./ladderValue.js";
export { doesIn, findMix, usualMix } from "./mix.js";
export type {
  Does,
  Drill,
  DropoutPlace,
  Ease,
  Gate,
  Ladder,
  Mix,
  Parameter,
  Settings,
  Tolerance,
} from "./model.js";
export { type Odometer, odometer, type Wheel } from "./odometer.js";
export { type Rung, type Rungs, rungs } from "./rungs.js";
export { scoreOf } from "./scoreOf.js";
export { PARAMETERS, parseSettings, settingsText } from "./settings.js";
