import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { problemsIn, type Result } from "../../../lib/base/index.js";
import { contentOf } from "../../../lib/curriculum/yaml/data.js";
import { documentOf, type Source } from "../../../lib/curriculum/yaml/document.js";
import { swallowedIn } from "../../../lib/curriculum/yaml/swallowed.js";

/** What a course is made of, and all that is said about its text. */
function told(read: Result<Source>): unknown {
  if (!read.ok) return { refused: read.problems.map(({ code, where }) => [code, where]) };
  const content = contentOf(read.value);
  if (!content.ok) return { refused: content.problems.map(({ code, where }) => [code, where]) };
  const { value, problems } = content.value;
  return { value, problems, swallowed: swallowedIn(read.value, content.value) };
}

const wholly = (text: string): Result<Source> => documentOf(text);
const byEntries = (text: string, run = 0): Result<Source> => documentOf(text, { largest: 0, run });
const isNotCut = (read: Result<Source>): boolean => problemsIn(read).some(({ code }) => code === "TEXT_TOO_LARGE");

/** Reading by entries gives the same, or says that the text cannot be cut: it never reads something else. */
function expectTheSame(text: string): void {
  for (const run of [0, 20]) {
    const cut = byEntries(text, run);
    if (isNotCut(cut)) continue;
    const whole = wholly(text);
    expect(cut.ok, text).toBe(whole.ok);
    if (whole.ok) expect(told(cut), text).toEqual(told(whole));
  }
}

const files = (folder: string): readonly string[] =>
  readdirSync(folder, { encoding: "utf8", recursive: true })
    .filter((name) => name.endsWith(".yaml"))
    .map((name) => `${folder}/${name}`);

describe("a text that is read entry by entry", () => {
  test.each(files("curricula"))("is the same course, and cut: %s", (file) => {
    const text = readFileSync(file, "utf8");
    expect(told(byEntries(text))).toEqual(told(wholly(text)));
    expect(told(byEntries(text))).toMatchObject({ value: parse(text, { merge: false }) });
    expect(told(byEntries(text.replaceAll("\n", "\r\n")))).toEqual(told(wholly(text.replaceAll("\n", "\r\n"))));
  });

  test("has the same problems at the same places, or is not cut: every broken course of the catalogue", () => {
    const broken = files("tests/problems").map((file) => readFileSync(file, "utf8"));
    expect(broken.length).toBeGreaterThan(100);
    const notCut = broken.filter((text) => isNotCut(byEntries(text)));
    for (const text of broken)
      if (!notCut.includes(text)) expect(told(byEntries(text)), text).toEqual(told(wholly(text)));
    // Texts without sections, and such in which a section is no mapping.
    expect(notCut.length).toBeLessThan(broken.length / 10);
  });

  test.each([
    ["braces that close under their key", "drills:\n  a: {\n    b: 1\n  }\n  c: [\n    1\n  ]\n"],
    ["a list under its key, as far in as the key", "drills:\n  a:\n  - 1\n  - 2\n  b: 3\n"],
    ["explicit keys", "drills:\n  ? a\n  : 1\n  ? b\n  : 2\n"],
    ["a text that keeps its line ends", "drills:\n  a: |+\n    x\n\n\n  b: 1\n"],
    ["comments at the start of lines", "drills:\n# one\n  a: 1\n# two\n\n  # three\n  b: 2\n# four\n"],
    ["a section in the document's own way", "---\ndrills: # all\n  a: 1\npatterns:\n  b: 2\n...\n"],
    ["aliases from entry to entry", "drills:\n  a: &x { y: [1] }\n  b: *x\npatterns:\n  c: *x\n"],
    ["an alias before its anchor", "drills:\n  b: *x\n  a: &x 1\n"],
    ["the same section twice", "drills:\n  a: 1\ndrills:\n  a: 2\n"],
    ["the same entry twice", "drills:\n  a: 1\n  b: 2\n  a: 3\n"],
    ["a section that is one text over lines", "drills:\n  just\n  words\n"],
    ["a text over lines that looks like a section", "a: |\n drills:\n   b: 1\nc: 2\n"],
    ["a document that is a text", "--- |\ndrills:\n  b: 1\n"],
    ["two documents", "drills:\n  a: 1\n---\ndrills:\n  b: 1\n"],
    ["sections of which one is empty", "patterns:\ndrills:\n  a: 1\nscales:\n"],
    ["a list at the start of the line, behind an entry", "drills:\n    a:\n- 1\n"],
    ["a list before an entry", "drills:\n  - 1\n  a:\n"],
    ["a key without a name", "drills:\n  a: 1\n: 2\n"],
    ["a tab behind a text over lines", "drills:\n  a: |\n\t\n"],
    ["a tab before an entry", "drills:\n\t\n    a:\na:\n"],
    ["tabs", "drills:\n\ta: 1\n  b: 2\n"],
    ["an entry too far in and one too far out", "drills:\n  a: 1\n   b: 2\n c: 3\n"],
  ])("%s", (_, text) => {
    expectTheSame(text);
  });

  test("is never read as something else, whatever its lines", () => {
    const indentation = fc.constantFrom("", "", " ", "  ", "  ", "  ", "    ", "    ", "\t");
    const body = fc.constantFrom(
      ...'a:|b: 1|c: &x 2|d: *x|drills:|patterns:|- 1|- a: 1|? e|: 2|{|}|[|]|{ f: 1 }|g: {|h: [|# note|k: >-|l: |m: "|n"|\'o|word|"p": 1|---|...|!t q: 1|%Y|,|'.split(
        "|",
      ),
      "r: |",
      "s: |+",
    );
    const line = fc.tuple(indentation, body).map(([before, rest]) => `${before}${rest}`);
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 12 }), (lines) => {
        expectTheSame(`drills:\n${lines.join("\n")}\n`);
      }),
      { numRuns: 2000 },
    );
  });
});
