import { readFileSync } from "node:fs";
import type { Problem } from "../base/index.js";
import { loadWords, type Words } from "../words/index.js";

/** Loads the words of a language by its BCP 47 tag. */
export type LoadWords = typeof loadWords;

/**
 * The language that a course asks for: the first course among the arguments of a command. It is read from the text before the course is checked, so that
 * what is wrong with the course is said in it.
 */
export function languageOfCourse(words: readonly string[]): string | undefined {
  const file = words.find((word) => /\.(?:ya?ml|json)$/.test(word));
  if (file === undefined) return undefined;
  try {
    const text = readFileSync(file, "utf8");
    return (
      /^language:\s*["']?([A-Za-z][0-9A-Za-z-]*)/m.exec(text)?.[1] ??
      /"imprint":\{[^}]*"language":"([^"]+)"/.exec(text)?.[1]
    );
  } catch {
    // A file that cannot be read is the command's to tell.
    return undefined;
  }
}

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
