export { type DriftEvidence, driftError, type PlayerNoise, SEASONED_PLAYER } from "./check/driftError.js";
export { askedOf, octaveRemedy, octavesIn } from "./check/octaves.js";
export { smallestShiftHeard } from "./check/tolerance.js";
export { drillCodes } from "./codes.js";
export { compileDrill, type DrillContext } from "./compile/drill.js";
export { doesIn, usualMix } from "./mix.js";
export type {
  Does,
  Drill,
  DropoutPlace,
  Gate,
  GoBack,
  Ladder,
  Mix,
  Parameter,
  Settings,
  Tolerance,
} from "./model.js";
export { parsePartsInTake, partsTextsIn } from "./partsInTake.js";
export type { DrillCode } from "./problem.js";
export { rungCalled, rungIndex } from "./rung/called.js";
export { findMix, findRung } from "./rung/find.js";
export { ladderStep, ladderValue } from "./rung/ladder.js";
export { type Odometer, odometer, type Wheel } from "./rung/odometer.js";
export { isPreparation, onLadder, preparationCalled, preparationsOf } from "./rung/preparations.js";
export { type Rung, type Rungs, rungNumber, rungs } from "./rung/rungs.js";
export { PARAMETERS, parseSettings, readSettings, settingsText } from "./rung/settings.js";
export { otherScores } from "./score/otherScores.js";
export { scoreOf, takeSeconds, unplayedScore } from "./score/score.js";
export { lengthsInTake, lengthTextsIn, parseSilenceLengths, type SilenceLengths } from "./silenceLengths.js";
export { titleOf } from "./title.js";
