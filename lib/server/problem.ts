import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { ListenCode } from "../listen/index.js";
import type { PracticeCode } from "../practice/index.js";
import type { SchemaCode } from "../schema/index.js";
import type { serverCodes } from "./codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type ServerCode = keyof typeof serverCodes | PracticeCode | SchemaCode | ListenCode;

export type Problem = ProblemOf<ServerCode>;
export type Result<T> = ResultOf<T, ServerCode>;
