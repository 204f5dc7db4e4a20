import { describe, expect, test } from "vitest";
import type { Problem } from "../../lib/base/index.js";
import { problemText } from "../../lib/cli/output/problemText.js";
import { explainNoteWords, loadWords } from "../../lib/words/index.js";
import { readCatalogues } from "./catalogues.js";

const loaded = await loadWords("en");
if (!loaded.ok) throw new Error("the English words are missing");
const words = loaded.value;

const problem: Problem = {
  code: "BAR_EMPTY",
  severity: "error",
  message: "bar 2 is empty",
  remedy: "write rest, or same",
  where: {},
  words: {
    message: { key: "pattern-problem.bar-empty", parameters: { place: "bar", bar: 2 } },
    remedy: { key: "pattern-problem.bar-empty-remedy", parameters: {} },
  },
};

describe("a word of the note line in a message", () => {
  test("is explained where an answer uses it first, and once", () => {
    const explained = new Set<string>();
    const options = { sources: new Map(), colour: false, words, explained };
    const [first, second] = [problemText(problem, options), problemText(problem, options)];
    expect(first).toContain("    rest is silence");
    expect(first).toContain("    same is the bar before once more");
    expect(second).not.toContain("once more");
    expect(explainNoteWords(problem, new Set(["rest"]), words)).toEqual(["same is the bar before once more"]);
  });

  test("is marked in the catalogue wherever a message says to write it, so that its explanation is found", async () => {
    const english = (await readCatalogues()).get("en")!;
    const unmarked = [...english]
      .filter(([key]) => /^(?:pattern|drill|curriculum)-problem\./.test(key))
      .filter(([, { source }]) =>
        /\b(?:write|with|or|then|begin the line with) (?:rest|same|tie|3 in 2 \[(?! ?1\/8))(?=[ ,|]|$)/m.test(source),
      )
      .map(([key]) => key);
    // Explain the word themselves: "write tie for a note that goes on".
    expect(unmarked).toEqual(["pattern-problem.note-not-read-remedy-tie"]);
  });
});
