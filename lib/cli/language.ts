import type { Problem } from "../base/index.js";
import { loadWords, type Words } from "../words/index.js";

/** Loads the words of a language by its BCP 47 tag. */
export type LoadWords = typeof loadWords;

/** The words in which a command answers; in English, with the problem, when there are none of that language. */
export async function wordsFor(
  tag: string,
  load: LoadWords = loadWords,
): Promise<{ readonly words: Words; readonly problems: readonly Problem[] }> {
  const wanted = await load(tag);
  if (wanted.ok) return { words: wanted.value, problems: [] };
  const english = await loadWords("en");
  if (!english.ok) throw new RangeError("the English words are missing");
  return { words: english.value, problems: wanted.problems };
}
