import { problemsOf } from "../../base/index.js";

/** Problems of a printed sheet. */
export const sheetCodes = {
  ENGRAVING_FAILED: { severity: "error", means: "The notation engraver could not draw a riff." },
  SHEET_PACKAGE_MISSING: { severity: "error", means: "A package that draws sheets is not installed." },
  FONT_NOT_READ: { severity: "error", means: "A font given for a sheet is no OpenType font." },
  PICTURE_NOT_READ: { severity: "error", means: "A picture given for a sheet is neither a PNG nor a JPEG file." },
  PAPER_UNKNOWN: { severity: "error", means: "A paper size is not known." },
  LETTER_WITHOUT_GLYPH: {
    severity: "advice",
    means: "The font has no glyph for a letter of a text; it is printed as an empty box.",
  },
} as const;

export const sheetProblem: ReturnType<typeof problemsOf<typeof sheetCodes>> = problemsOf(sheetCodes);
