import { problemsOf } from "../base/index.js";

/** Problems with learning records that are to be made of journals. */
export const recordCodes = {
  RECORD_ADDRESS_NOT_ABSOLUTE: "error",
  RECORD_KEY_TOO_SHORT: "error",
  RECORD_TIME_IMPOSSIBLE: "advice",
} as const;

export const recordProblem: ReturnType<typeof problemsOf<typeof recordCodes>> = problemsOf(recordCodes);
