import { readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { Problem } from "../../lib/base/index.js";
import { problemText } from "../../lib/cli/output/problemText.js";
import { explainNoteWords, loadWords } from "../../lib/words/index.js";
import { saidBy } from "../cli/said.js";
import { ROOT } from "../sources.js";
import { readCatalogues } from "./catalogues.js";

const PROBLEMS = join(ROOT, "tests", "problems");

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

  // Words of a line that a remedy proposes, and the messages that say themselves what their word does.
  const PROPOSED = /(?<=^ {4}-> .*[ |])(?:rest|same|tie|\.\.\.)(?=[ |,]|$)|(?<=^ {4}-> .*)\d in \d+ \[/gm;
  const SAYS_ITSELF = [
    /^ {4}-> add for instance notes: .*$/m,
    /^ {4}-> write what is missing, or \| \.\.\. at the end to repeat the bars so far$/m,
    /^ {4}-> .*\bwrite 3 in 2 \[1\/8 D4 E4 F4\].*$/m,
  ];
  const MEANS: Readonly<Record<string, RegExp>> = {
    rest: /^ {4}rest is /m,
    same: /^ {4}same is /m,
    tie: /^ {4}tie lets /m,
    "...": /^ {4}\.\.\. at the end /m,
    tuplet: /^ {4}3 in 2 \[ begins /m,
  };
  const meaningOf = (word: string): RegExp => MEANS[word.endsWith("[") ? "tuplet" : word]!;
  const broken = readdirSync(PROBLEMS).filter((name) => name.endsWith(".yaml"));

  test("is explained in what check says of any broken course, before it is met again", async () => {
    let met = 0;
    for (const name of broken) {
      const { out, err } = await saidBy(["check", join(PROBLEMS, name)]);
      const said = SAYS_ITSELF.reduce((text, line) => text.replaceAll(new RegExp(line.source, "gm"), ""), out + err);
      for (const word of new Set(Array.from(said.matchAll(PROPOSED), ([each]) => each))) {
        met++;
        expect(said, `${name}: ${word}`).toMatch(meaningOf(word));
        const [before] = said.split(meaningOf(word));
        const used = Array.from(before!.matchAll(PROPOSED), ([each]) => each).filter((each) => each === word);
        expect(used.length, `${name}: ${word}`).toBeLessThanOrEqual(1);
      }
    }
    expect(met).toBeGreaterThan(10);
  });

  test("is explained once, however many courses are broken", async () => {
    const { out, err } = await saidBy(["check", ...broken.map((name) => join(PROBLEMS, name))]);
    const times = Object.entries(MEANS).map(([word, { source }]) => [
      word,
      (out + err).match(new RegExp(source, "gm"))?.length,
    ]);
    expect(Object.fromEntries(times)).toEqual({ rest: 1, same: 1, tie: 1, "...": 1, tuplet: 1 });
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
