import { describe, expect, test } from "vitest";
import type { Problem } from "../../../lib/base/index.js";
import { wordsFor } from "../../../lib/cli/language.js";
import { problemText } from "../../../lib/cli/output/problemText.js";

const { words } = await wordsFor("en");
const sources = new Map([["quay.yaml", `curriculum: quay\n\ttempo: "\u001b[31m88"\n${"-".repeat(200)}x\n🎺🎺: 1\n`]]);
const problem = (where: Problem["where"], more: Partial<Problem> = {}): Problem => ({
  code: "A_CODE",
  severity: "error",
  message: "is wrong",
  where,
  ...more,
});
const text = (each: Problem, colour = false): string =>
  problemText(each, { sources, colour, words, explained: new Set() });

describe("problemText()", () => {
  test("gives file, line and column, the code, the message, the line with a caret, and the remedy", () => {
    expect(text(problem({ file: "quay.yaml", line: 1, column: 13 }, { remedy: "write quayside" }))).toBe(
      [
        "quay.yaml:1:13  A_CODE  is wrong",
        "    curriculum: quay",
        "                ^",
        "    -> write quayside",
        "",
      ].join("\n"),
    );
  });

  test("marks advice as advice", () => {
    expect(text(problem({}, { severity: "advice" }))).toBe("A_CODE  advice: is wrong\n");
  });

  test("says the pointer where there is no line", () => {
    expect(text(problem({ file: "take.json", pointer: "/onsets/0" }))).toBe(
      "take.json  A_CODE  is wrong at /onsets/0\n",
    );
  });

  test("lets no control character of a file reach the terminal", () => {
    const shown = text(problem({ file: "quay.yaml", line: 2, column: 2 }, { message: "found \u001b]0;x\u0007" }));
    expect(shown).not.toContain("\u001b");
    expect(shown).not.toContain("\u0007");
    expect(shown).toContain("    ·tempo");
  });

  test("moves along a long line so that the caret stays in sight", () => {
    const lines = text(problem({ file: "quay.yaml", line: 3, column: 201 })).split("\n");
    expect(lines[1]!.length).toBeLessThanOrEqual(80);
    expect(lines[1]![lines[2]!.indexOf("^")]).toBe("x");
  });

  test("counts characters, not code units, before the caret", () => {
    const lines = text(problem({ file: "quay.yaml", line: 4, column: 5 })).split("\n");
    expect(lines[2]).toBe("      ^");
  });

  test("shows no line for a place the file does not have", () => {
    expect(text(problem({ file: "quay.yaml", line: 99, column: 1 }))).toBe("quay.yaml:99:1  A_CODE  is wrong\n");
    expect(text(problem({ file: "other.yaml", line: 1, column: 1 }))).toBe("other.yaml:1:1  A_CODE  is wrong\n");
  });

  test("is coloured only when asked", () => {
    expect(text(problem({ file: "quay.yaml", line: 1, column: 1 }), true)).toContain("\u001b[38;5;130mA_CODE");
  });
});
