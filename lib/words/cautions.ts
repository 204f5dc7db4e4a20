import { CAUTIONS, CLICK_CAUTION } from "../base/index.js";
import type { KeyIn } from "./catalogueOf.js";
import type { Words } from "./words.js";

/** The messages of the cautions: of `CAUTIONS`, in its order, and of the clicks. */
const SENTENCES = [...CAUTIONS, CLICK_CAUTION];
const KEYS: readonly KeyIn<"caution">[] = ["caution.loudness", "caution.strain", "caution.rules", "caution.clicks"];

/**
 * The cautions about loudness, strain and whose word comes first, in the language of the words: all, or those given. In English when the words have none.
 * @example
 * const words = await loadWords("en");
 * words.ok && cautionsIn(words.value).length // 3
 */
export function cautionsIn(words: Pick<Words, "word">, cautions: readonly string[] = CAUTIONS): readonly string[] {
  return cautions.map((sentence) => {
    const key = KEYS[SENTENCES.indexOf(sentence)];
    return words.word(key && { key, parameters: {} }, sentence);
  });
}
