import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { CurriculumCode } from "../curriculum/index.js";
import type { planCodes } from "./codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type PlanCode = keyof typeof planCodes | CurriculumCode;

export type Problem = ProblemOf<PlanCode>;
export type Result<T> = ResultOf<T, PlanCode>;
