import { english, settingInEnglish, sheetInEnglish, type Words, wordsOf } from "../../words/index.js";

/** What a sheet says. */
export type SheetWords = Words<"sheet" | "setting">;

export const ENGLISH: SheetWords = /* @__PURE__ */ wordsOf(english, { ...sheetInEnglish, ...settingInEnglish });
