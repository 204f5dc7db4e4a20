import { problemsOf } from "../../base/index.js";

/** Problems with a course that was compiled ahead. */
export const compiledCodes = {
  COMPILED_COURSE_UNREADABLE: "error",
  COMPILED_VERSION_UNKNOWN: "error",
  COMPILED_COURSE_ALTERED: "error",
} as const;

/** Makes a problem of this catalogue. */
export const compiledProblem: ReturnType<typeof problemsOf<typeof compiledCodes>> = problemsOf(compiledCodes);
