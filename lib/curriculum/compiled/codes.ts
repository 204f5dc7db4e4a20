import { type Place, type Problem, problemsOf, type Worded } from "../../base/index.js";

/** Problems with a course that was compiled ahead. */
export const compiledCodes = {
  COMPILED_COURSE_UNREADABLE: { severity: "error", means: "The text is no course that was compiled ahead." },
  COMPILED_VERSION_UNKNOWN: {
    severity: "error",
    means: "A compiled course is of a version of the format that this leeway does not know.",
  },
  COMPILED_COURSE_ALTERED: {
    severity: "error",
    means: "A compiled course is not as it was written: something of it was changed, or is missing.",
  },
} as const;

/** Makes a problem of this catalogue. */
export const compiledProblem: (
  code: keyof typeof compiledCodes,
  message: Worded,
  where?: Place,
  remedy?: Worded,
) => Problem = problemsOf(compiledCodes);
