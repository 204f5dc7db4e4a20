import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { FormatCode } from "../formats/index.js";
import type { listenCodes } from "./codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type ListenCode = keyof typeof listenCodes | FormatCode;

export type Problem = ProblemOf<ListenCode>;
export type Result<T> = ResultOf<T, ListenCode>;
