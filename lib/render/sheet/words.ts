import {
  english,
  instrumentInEnglish,
  settingInEnglish,
  sheetInEnglish,
  valueInEnglish,
  type Words,
  wordsOf,
} from "../../words/index.js";

/** What a sheet says. */
export type SheetWords = Words<"sheet" | "setting" | "instrument" | "value">;

export const ENGLISH: SheetWords = /* @__PURE__ */ wordsOf(english, {
  ...sheetInEnglish,
  ...settingInEnglish,
  ...instrumentInEnglish,
  ...valueInEnglish,
});
