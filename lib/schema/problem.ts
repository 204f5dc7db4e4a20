import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { schemaCodes } from "./codes.js";

/** The codes that problems of this room can have. */
export type SchemaCode = keyof typeof schemaCodes;

export type Problem = ProblemOf<SchemaCode>;
export type Result<T> = ResultOf<T, SchemaCode>;
