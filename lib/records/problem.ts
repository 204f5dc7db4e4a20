import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { recordCodes } from "./codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type RecordCode = keyof typeof recordCodes;

export type Problem = ProblemOf<RecordCode>;
export type Result<T> = ResultOf<T, RecordCode>;
