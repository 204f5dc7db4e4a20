import { problemsOf } from "../base/index.js";

/** Problems with languages. */
export const wordsCodes = {
  LANGUAGE_UNKNOWN: "error",
} as const;

export const wordsProblem: ReturnType<typeof problemsOf<typeof wordsCodes>> = problemsOf(wordsCodes);
