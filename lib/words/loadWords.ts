import { failure, nearestName, success } from "../base/index.js";
import type { CatalogueOf, Topic } from "./catalogueOf.js";
import { wordsProblem } from "./codes.js";
import { language as english } from "./generated/en-language.js";
import { messages } from "./generated/en-words-problem.js";
import { LANGUAGES } from "./generated/languages.js";
import type { Result } from "./problem.js";
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
    // One of two letters is half of them: pl is Polish, and no slip for pt.
    const nearest = tag.length > 2 ? nearestName(tag, languageTags) : undefined;
    const message = say("words-problem.language-unknown", { languages: languageTags, found: tag });
    const remedy =
      nearest === undefined
        ? say("words-problem.language-unknown-remedy-any", { languages: languageTags })
        : say("words-problem.language-unknown-remedy", { language: nearest });
    return failure(wordsProblem("LANGUAGE_UNKNOWN", message, {}, remedy));
  }
  const { lacks, isReviewed } = LANGUAGES[name];
  // A problem brings its English sentence with it; what a room says itself has to be there.
  const english = lacks.some((topic) => !topic.endsWith("-problem")) ? await wordsIn("en") : undefined;
  const words = await wordsIn(name, english);
  return success(name === "en" ? words : { ...words, gaps: { isReviewed, isPartly: lacks.length > 0 } });
}

async function wordsIn(name: keyof typeof LANGUAGES, english?: Words): Promise<Words> {
  const { language, messages } = await LANGUAGES[name].load();
  return wordsOf(language, messages as CatalogueOf<Topic>, english);
}

/** A language there are words for. */
export interface ListedLanguage {
  /** BCP 47 tag: "de". */
  readonly tag: string;
  /** In the language itself: "Deutsch". */
  readonly name: string;
  /** Whether a native speaker has read it. */
  readonly isReviewed: boolean;
  /** Topics that are in English for want of words. */
  readonly lacks: readonly Topic[];
}

/**
 * Every language there are words for, English first.
 *
 * @example listLanguages()[0]?.name // "English"
 */
export function listLanguages(): readonly ListedLanguage[] {
  return Object.entries(LANGUAGES).map(([tag, { name, isReviewed, lacks }]) => ({ tag, name, isReviewed, lacks }));
}

/**
 * What is to be said once where these words are chosen: that nobody has read them, and that some are English; nothing for English.
 *
 * @example
 * const loaded = await loadWords("en");
 * loaded.ok && languageNotes(loaded.value).length // 0
 */
export function languageNotes({ gaps, say }: Pick<Words<"languages">, "gaps" | "say">): readonly string[] {
  if (gaps === undefined) return [];
  return [
    ...(gaps.isReviewed ? [] : [say("languages.unreviewed")]),
    ...(gaps.isPartly ? [say("languages.partly")] : []),
  ];
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
