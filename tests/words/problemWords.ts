import { expect } from "vitest";
import type { Problem } from "../../lib/base/index.js";
import { messages } from "../../lib/words/generated/en.js";
import { english, wordsOf } from "../../lib/words/index.js";
import { markedWords, unmarked } from "./marked.js";

const words = wordsOf(english, messages);
const marked = markedWords();

/**
 * Expects that message and remedy of a problem stand beside their English sentences, and that nothing in them bypassed the catalogue but what the caller
 * sees: gives the names in them.
 */
export function expectWorded({ message, remedy, words: own }: Problem): readonly string[] {
  expect(words.word(own?.message, "")).toBe(message);
  expect(own?.remedy === undefined).toBe(remedy === undefined);
  if (remedy !== undefined) expect(words.word(own?.remedy, "")).toBe(remedy);
  const { outside, names } = unmarked(marked.word(own?.message, message) + marked.word(own?.remedy, ""));
  expect(outside).toBe("");
  return names;
}
