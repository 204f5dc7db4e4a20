import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { FormatCode } from "../formats/index.js";
import type { RenderCode } from "../render/index.js";
import type { nodeCodes } from "./codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type NodeCode = keyof typeof nodeCodes | RenderCode | FormatCode;

export type Problem = ProblemOf<NodeCode>;
export type Result<T> = ResultOf<T, NodeCode>;
