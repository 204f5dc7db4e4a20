import {
  cautionInEnglish,
  english,
  reportInEnglish,
  settingInEnglish,
  valueInEnglish,
  type Words,
  wordsOf,
} from "../words/index.js";

/** What reports say. */
export type ReportWords = Words<"report" | "setting" | "caution">;

export const ENGLISH: ReportWords = /* @__PURE__ */ wordsOf(english, {
  ...reportInEnglish,
  ...settingInEnglish,
  ...valueInEnglish,
  ...cautionInEnglish,
});
