import type { Worded } from "../base/index.js";
import type { CatalogueOf, Given, KeyIn, Topic } from "./catalogueOf.js";
import type { MessageParameters } from "./generated/parameters.js";
import type { Language } from "./language.js";
import { type Compiled, type Wording, worded, wordingOf } from "./wording.js";

/** Makes a message together with its sentence. A key or a parameter that the catalogue does not have does not compile. */
export type Speaker<T extends Topic> = <Key extends KeyIn<T>>(
  key: Key,
  ...given: Given<Key>
) => Worded<{ readonly key: Key; readonly parameters: MessageParameters[Key] }>;

/**
 * A speaker of one language for these topics; phrases that its messages hold must be among them.
 *
 * @example speakerOf(english, takeInEnglish)("take.nothing-played").says // "Nothing was played."
 */
export function speakerOf<T extends Topic>(language: Language, messages: CatalogueOf<T>): Speaker<T> {
  const compiled = messages as Compiled;
  let wording: Wording | undefined;
  return (key, ...[parameters]) => {
    wording ??= wordingOf(language, compiled);
    const message = { key, parameters: parameters ?? {} } as {
      key: typeof key;
      parameters: MessageParameters[typeof key];
    };
    return { says: worded(compiled, message, wording), message };
  };
}
