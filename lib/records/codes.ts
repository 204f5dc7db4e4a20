import { problemsOf } from "../base/index.js";

/** Problems with learning records that are to be made of journals. */
export const recordCodes = {
  RECORD_ADDRESS_NOT_ABSOLUTE: {
    severity: "error",
    means: "The home page of a school, or the address activities begin with, is not an absolute web address.",
  },
  RECORD_KEY_TOO_SHORT: {
    severity: "error",
    means: "The key for pseudonyms is too short to keep names from being guessed.",
  },
  RECORD_TIME_IMPOSSIBLE: {
    severity: "advice",
    means: "An event has a date that is in no calendar, and learning records must have a real one; it is left out.",
  },
} as const;

export const recordProblem: ReturnType<typeof problemsOf<typeof recordCodes>> = problemsOf(recordCodes);
