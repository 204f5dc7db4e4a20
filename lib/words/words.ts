import type { Message } from "../base/index.js";
import type { CatalogueOf, Given, KeyIn, Topic } from "./catalogueOf.js";
import type { Language } from "./language.js";
import { type SayValue, withValuesTold } from "./settingValues.js";
import { type Compiled, worded, wordingOf } from "./wording.js";

/** A language for the rooms that show words to people: what they say themselves, and the messages others hand them. */
export interface Words<T extends Topic = Topic> {
  /** BCP 47 tag of the language: "en". */
  readonly language: string;
  /** Whether a native speaker has read these words, and whether some topics are in English for want of any; absent: read, and whole. */
  readonly gaps?: { readonly isReviewed: boolean; readonly isPartly: boolean };
  /** A sentence of one's own. A key or a parameter that the catalogue does not have does not compile. */
  say<Key extends KeyIn<T>>(key: Key, ...given: Given<Key>): string;
  /** A message from elsewhere; when it is absent, unknown here or does not fit, the sentence that came with it. */
  word(message: Message | undefined, sentence: string): string;
}

/**
 * The words of a language for these topics. `english` says what `messages` lack; without it, they lack nothing that is said.
 *
 * @example
 * const words = wordsOf(english, catalogue);
 */
export function wordsOf<T extends Topic>(language: Language, messages: CatalogueOf<T>, english?: Words<T>): Words<T> {
  const compiled = messages as Compiled;
  const wording = wordingOf(language, compiled);
  const sayValue: SayValue = (key, ...[parameters]) => worded(compiled, { key, parameters: parameters ?? {} }, wording);
  const told = <M extends { readonly key: string; readonly parameters: object }>(message: M): M =>
    Object.hasOwn(compiled, "value.length") ? withValuesTold(message, sayValue) : message;
  return {
    language: language.tag,
    say: (key, ...given) => {
      if (english !== undefined && !Object.hasOwn(compiled, key)) return english.say(key, ...given);
      return worded(compiled, told({ key, parameters: given[0] ?? {} }), wording);
    },
    word: (message, sentence) => {
      if (message === undefined || !Object.hasOwn(compiled, message.key)) return sentence;
      try {
        return worded(compiled, told(message), wording);
      } catch (error) {
        // Of another version, or not ours: its own sentence is what can be shown.
        if (error instanceof TypeError || error instanceof RangeError) return sentence;
        throw error;
      }
    },
  };
}
