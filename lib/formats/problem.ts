import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { formatCodes } from "./codes.js";
import type { recordingCodes } from "./sound/codes.js";

/** The codes that problems of this room can have. */
export type FormatCode = keyof typeof formatCodes | keyof typeof recordingCodes;

export type Problem = ProblemOf<FormatCode>;
export type Result<T> = ResultOf<T, FormatCode>;
