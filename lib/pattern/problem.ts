import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { FormatCode } from "../formats/index.js";
import type { SchemaCode } from "../schema/index.js";
import type { TimeCode } from "../time/index.js";
import type { patternCodes } from "./codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type PatternCode = keyof typeof patternCodes | TimeCode | SchemaCode | FormatCode;

export type Problem = ProblemOf<PatternCode>;
export type Result<T> = ResultOf<T, PatternCode>;
