import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { PatternCode } from "../pattern/index.js";
import type { renderCodes } from "./codes.js";
import type { sheetCodes } from "./sheet/codes.js";
import type { soundCodes } from "./sound/codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type RenderCode = keyof typeof renderCodes | keyof typeof sheetCodes | keyof typeof soundCodes | PatternCode;

export type Problem = ProblemOf<RenderCode>;
export type Result<T> = ResultOf<T, RenderCode>;
