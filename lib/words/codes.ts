import { problemsOf } from "../base/index.js";

/** Problems with languages. */
export const wordsCodes = {
  LANGUAGE_UNKNOWN: { severity: "error", means: "There is no catalogue of words in that language." },
} as const;

export const wordsProblem: ReturnType<typeof problemsOf<typeof wordsCodes>> = problemsOf(wordsCodes);
