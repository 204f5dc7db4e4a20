import { failure, nearestName, success } from "../base/index.js";
import type { CatalogueOf, Topic } from "./catalogueOf.js";
import { wordsProblem } from "./codes.js";
import { language as english } from "./generated/en-language.js";
import { messages } from "./generated/en-words-problem.js";
import { FURTHER, FURTHER_TOPICS } from "./generated/further.js";
import { LANGUAGES } from "./generated/languages.js";
import type { Result } from "./problem.js";
import { speakerOf } from "./speaker.js";
import type { Compiled } from "./wording.js";
import { type Words, wordsOf } from "./words.js";

const say = /* @__PURE__ */ speakerOf<"words-problem">(english, messages);

/** BCP 47 tags of the languages there are catalogues for. */
export const languageTags: readonly string[] = Object.keys(LANGUAGES);

/** What is loaded of a language. */
export interface LoadingWords {
  /** Whether the words of problems are wanted. Without them, problems are told in English, and a third of the bytes is loaded; the default is true. */
  readonly problems?: boolean;
}

/**
 * The words of a language, loaded when they are asked for. "de-AT" is answered with "de" when there is no catalogue for Austria. The words of problems are
 * there on Node; in a browser, problems stay in English.
 *
 * Problem: LANGUAGE_UNKNOWN.
 *
 * @example
 * (await loadWords("xx")).ok // false
 */
export async function loadWords(tag: string, { problems = true }: LoadingWords = {}): Promise<Result<Words>> {
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
  const [{ language, messages }, further] = await Promise.all([
    LANGUAGES[name].load(),
    problems ? furtherOf(name) : undefined,
  ]);
  if (name === "en") return success(wordsOf(language, messages as CatalogueOf<Topic>));
  const { isReviewed } = LANGUAGES[name];
  const lacks = lacking(name, further !== undefined);
  // A problem brings its English sentence with it; what a room says itself has to be there.
  const inEnglish = lacks.some((topic) => !topic.endsWith("-problem")) ? await loadWords("en") : undefined;
  const whole = { ...messages, ...further } as CatalogueOf<Topic>;
  const words = wordsOf(language, whole, inEnglish?.ok ? inEnglish.value : undefined);
  return success({ ...words, gaps: { isReviewed, isPartly: lacks.length > 0 } });
}

/** The further messages of a language; `undefined` where they are not beside the library. */
async function furtherOf(name: string): Promise<Compiled | undefined> {
  return (await FURTHER[name]?.())?.messages;
}

/** Topics that are in English for want of words. */
function lacking(name: keyof typeof LANGUAGES, isWhole: boolean): readonly Topic[] {
  const { lacks } = LANGUAGES[name];
  return isWhole || name === "en" ? lacks : [...new Set([...lacks, ...FURTHER_TOPICS])];
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
  return Object.entries(LANGUAGES).map(([tag, { name, isReviewed }]) => ({
    tag,
    name,
    isReviewed,
    lacks: lacking(tag as keyof typeof LANGUAGES, FURTHER[tag] !== undefined),
  }));
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
