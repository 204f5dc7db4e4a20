import { english, sheetInEnglish, type Words, wordsOf } from "../../words/index.js";

/** What a sheet says. */
export type SheetWords = Words<"sheet">;

export const ENGLISH: SheetWords = /* @__PURE__ */ wordsOf(english, sheetInEnglish);
