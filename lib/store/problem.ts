import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { ProgressCode } from "../progress/index.js";
import type { storeCodes } from "./codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type StoreCode = keyof typeof storeCodes | ProgressCode;

export type Problem = ProblemOf<StoreCode>;
export type Result<T> = ResultOf<T, StoreCode>;
