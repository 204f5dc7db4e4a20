import { cautionInEnglish, english, sheetInEnglish, type Words, wordsOf } from "../../words/index.js";

/** What a sheet says. */
export type SheetWords = Words<"sheet" | "caution">;

export const ENGLISH: SheetWords = /* @__PURE__ */ wordsOf<"sheet" | "caution">(english, {
  ...sheetInEnglish,
  ...cautionInEnglish,
});
