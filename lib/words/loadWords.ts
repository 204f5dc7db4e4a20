import { failure, nearestName, type Result, success } from "../base/index.js";
import { wordsProblem } from "./codes.js";
import { language as english } from "./generated/en-language.js";
import { messages } from "./generated/en-words-problem.js";
import { LANGUAGES } from "./generated/languages.js";
import { speakerOf } from "./speaker.js";
import { type Words, wordsOf } from "./words.js";

const say = /* @__PURE__ */ speakerOf<"words-problem">(english, messages);

/** BCP 47 tags of the languages there are catalogues for. */
export const languageTags: readonly string[] = Object.keys(LANGUAGES);

/**
 * The words of a language, loaded when they are asked for, one file a language. "de-AT" is answered with "de" when there is no catalogue for Austria.
 *
 * Problem: LANGUAGE_UNKNOWN.
 *
 * @example
 * (await loadWords("xx")).ok // false
 */
export async function loadWords(tag: string): Promise<Result<Words>> {
  const name = languageFor(tag);
  if (name === undefined) {
    const nearest = nearestName(tag, languageTags);
    const message = say("words-problem.language-unknown", { languages: languageTags, found: tag });
    const remedy = say("words-problem.language-unknown-remedy", { language: nearest ?? languageTags[0]! });
    return failure(wordsProblem("LANGUAGE_UNKNOWN", message, {}, remedy));
  }
  const { language, messages } = await LANGUAGES[name]();
  return success(wordsOf(language, messages));
}

/** Lookup of RFC 4647 section 3.4: subtags are taken off from the end until a catalogue is found. */
function languageFor(tag: string): keyof typeof LANGUAGES | undefined {
  const parts = tag.toLowerCase().replaceAll("_", "-").split("-");
  for (let count = parts.length; count > 0; count--) {
    const wanted = parts.slice(0, count).join("-");
    const name = languageTags.find((each) => each.toLowerCase() === wanted);
    if (name !== undefined) return name as keyof typeof LANGUAGES;
  }
  return undefined;
}
