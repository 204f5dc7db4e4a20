import type { Problem as ProblemOf, Result as ResultOf } from "../base/index.js";
import type { CurriculumCode } from "../curriculum/index.js";
import type { PlanCode } from "../plan/index.js";
import type { ProgressCode } from "../progress/index.js";
import type { StoreCode } from "../store/index.js";
import type { practiceCodes } from "./codes.js";

/** The codes that problems of this room, and of what it rests on, can have. */
export type PracticeCode = keyof typeof practiceCodes | CurriculumCode | ProgressCode | PlanCode | StoreCode;

export type Problem = ProblemOf<PracticeCode>;
export type Result<T> = ResultOf<T, PracticeCode>;
