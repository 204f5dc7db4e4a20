import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { DrillCode } from "../drill/index.js";
import type { progressCodes } from "./codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type ProgressCode = keyof typeof progressCodes | DrillCode;

export type Problem = ProblemOf<ProgressCode>;
export type Result<T> = ResultOf<T, ProgressCode>;
