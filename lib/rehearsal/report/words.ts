import {
  english,
  rehearsalInEnglish,
  settingInEnglish,
  valueInEnglish,
  type Words,
  wordsOf,
} from "../../words/index.js";

/** What rehearsals say. */
export type RehearsalWords = Words<"rehearsal" | "setting">;

export const ENGLISH: RehearsalWords = /* @__PURE__ */ wordsOf(english, {
  ...rehearsalInEnglish,
  ...settingInEnglish,
  ...valueInEnglish,
});
