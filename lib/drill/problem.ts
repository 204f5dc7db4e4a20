import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { PatternCode } from "../pattern/index.js";
import type { drillCodes } from "./codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type DrillCode = keyof typeof drillCodes | PatternCode;

export type Problem = ProblemOf<DrillCode>;
export type Result<T> = ResultOf<T, DrillCode>;
