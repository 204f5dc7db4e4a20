import { problemsOf } from "../../base/index.js";

/** Problems of a printed sheet. */
export const sheetCodes = {
  ENGRAVING_FAILED: "error",
  SHEET_PACKAGE_MISSING: "error",
  FONT_NOT_READ: "error",
  PICTURE_NOT_READ: "error",
  PAPER_UNKNOWN: "error",
  LETTER_WITHOUT_GLYPH: "advice",
} as const;

export const sheetProblem: ReturnType<typeof problemsOf<typeof sheetCodes>> = problemsOf(sheetCodes);
