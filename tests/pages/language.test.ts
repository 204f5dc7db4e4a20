import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ROOT } from "../sources.js";

/** Words of a sentence in the mean of a page: for teachers, students and app developers whose English may be a second language. Our choice. */
const MOST = 25;

/** Pages for users, in English; what lists are made of the code is left out. */
const pages = [
  "README.md",
  "curricula/README.md",
  "curricula/hand-outs/en.md",
  "schemas/README.md",
  ...["README", "METHOD", "FORECAST", "LISTENING", "REAL-PLAYERS"].map((page) => `tests/reference/${page}.md`),
].concat(
  readdirSync(join(ROOT, "lib"), { encoding: "utf8", recursive: true })
    .filter((file) => file.endsWith(".md"))
    .map((file) => `lib/${file.replaceAll("\\", "/")}`),
);

/** The lengths of the sentences of a page, in words; a piece of code is one word, an item of a list begins a sentence. */
function lengthsOf(text: string): readonly number[] {
  const prose = text
    .split(/<!-- (?:exports|commands) -->/)[0]!
    .replaceAll(/^```[\s\S]*?^```/gm, "")
    .replaceAll(/^(?:\||#| {4}).*$/gm, "")
    .replaceAll(/^\s*(?:[-*]|\d+\.) /gm, ". ")
    .replaceAll(/`[^`]*`/g, "Code")
    .replaceAll(/\]\([^)]*\)/g, "]");
  return prose
    .split(/(?<=[.:!?])\s+(?=[A-Z*["'(])|\n\n/)
    .map((sentence) => sentence.split(/\s+/).filter((word) => /\w/.test(word)).length)
    .filter((words) => words > 2);
}

test.each(pages)("%s has sentences of at most 25 words in the mean", (page) => {
  const lengths = lengthsOf(readFileSync(join(ROOT, page), "utf8"));
  expect(lengths.length).toBeGreaterThan(0);
  expect(lengths.reduce((sum, each) => sum + each, 0) / lengths.length).toBeLessThanOrEqual(MOST);
});
