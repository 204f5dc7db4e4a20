import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { timeCodes } from "./codes.js";

/** The codes that problems of this room can have. */
export type TimeCode = keyof typeof timeCodes;

export type Problem = ProblemOf<TimeCode>;
export type Result<T> = ResultOf<T, TimeCode>;
