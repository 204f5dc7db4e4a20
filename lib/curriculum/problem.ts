import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { DrillCode } from "../drill/index.js";
import type { curriculumCodes } from "./codes.js";
import type { compiledCodes } from "./compiled/codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type CurriculumCode = keyof typeof curriculumCodes | keyof typeof compiledCodes | DrillCode;

export type Problem = ProblemOf<CurriculumCode>;
export type Result<T> = ResultOf<T, CurriculumCode>;
