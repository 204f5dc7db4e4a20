import {
  english,
  instrumentInEnglish,
  settingInEnglish,
  settingPhrases,
  soundInEnglish,
  valueInEnglish,
  type Words,
  wordsOf,
} from "../words/index.js";

/** The words that are written into sound, MIDI and MusicXML files. */
export type FileWords = Words<"sound" | "setting" | "instrument" | "value">;

export const ENGLISH: FileWords = /* @__PURE__ */ wordsOf(english, {
  ...soundInEnglish,
  ...settingInEnglish,
  ...instrumentInEnglish,
  ...valueInEnglish,
});

/** The name of a rung in a file: its settings in words; of a drill in which nothing is set, that it is the only one. */
export function rungWords(rung: string, { say }: FileWords): string {
  return rung === "" ? say("setting.only-rung") : say("setting.all", { settings: settingPhrases(rung) });
}
