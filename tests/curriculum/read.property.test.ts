import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse, stringify } from "yaml";
import { problemsIn } from "../../lib/base/index.js";
import { courseFrom, courseText, HOLD, read } from "./courses.js";

const FOLDER = new URL("../../curricula/", import.meta.url);
const SHIPPED = readdirSync(FOLDER)
  .filter((file) => file.endsWith(".yaml"))
  .map((file) => readFileSync(new URL(file, FOLDER), "utf8"));
const SMALL = courseText({ drills: `${HOLD}    needs: []\n` });
const texts = fc.constantFrom(SMALL, ...SHIPPED);

/** Pieces that mean something in YAML or in a curriculum. */
const PIECES = [
  "\n",
  "  ",
  "\t",
  ":",
  ": ",
  "- ",
  "[",
  "]",
  "{",
  "}",
  ",",
  "#",
  "&a",
  "*a",
  "!t",
  "|",
  ">",
  "%",
  "'",
  '"',
  "\\",
  "---\n",
  "~",
  "null",
  "1e400",
  ".nan",
  "-1",
  "0",
  "/",
  "bars",
  "4/4",
  "x",
  "é",
  "🎺",
  "\u0000",
  "\ufeff",
  "\r\n",
  "__proto__",
  "<<",
];

type Edit = (text: string) => string;
const at = (text: string, share: number): number => Math.floor(share * text.length);
const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
const edit: fc.Arbitrary<Edit> = fc.oneof(
  fc.tuple(share, fc.constantFrom(...PIECES)).map(
    ([where, piece]): Edit =>
      (text) =>
        text.slice(0, at(text, where)) + piece + text.slice(at(text, where)),
  ),
  fc.tuple(share, fc.integer({ min: 1, max: 40 })).map(
    ([where, length]): Edit =>
      (text) =>
        text.slice(0, at(text, where)) + text.slice(at(text, where) + length),
  ),
  fc.tuple(share, share).map(
    ([from, to]): Edit =>
      (text) =>
        text.slice(0, at(text, to)) + text.slice(at(text, from), at(text, from) + 60) + text.slice(at(text, to)),
  ),
  fc.tuple(share, fc.string({ unit: "binary", maxLength: 6 })).map(
    ([where, piece]): Edit =>
      (text) =>
        text.slice(0, at(text, where)) + piece + text.slice(at(text, where) + piece.length),
  ),
  // A whole line gone, or twice.
  fc.tuple(share, fc.boolean()).map(
    ([where, twice]): Edit =>
      (text) => {
        const lines = text.split("\n");
        const i = Math.floor(where * lines.length);
        return lines.toSpliced(i, twice ? 0 : 1, ...(twice ? [lines[i]!] : [])).join("\n");
      },
  ),
);

/** Every problem is complete, and its place is in the text. */
function expectPlacesInside(text: string): void {
  const result = read(text);
  const lines = text.split("\n");
  const problems = problemsIn(result);
  expect(result.ok).toBe(!problems.some((each) => each.severity === "error"));
  for (const { code, message, where } of problems) {
    expect(code).toMatch(/^[A-Z][A-Z0-9_]+$/);
    expect(message.length).toBeGreaterThan(0);
    expect(where.file).toBe("course.yaml");
    expect(where.line).toBeGreaterThanOrEqual(1);
    expect(where.line).toBeLessThanOrEqual(lines.length);
    expect(where.column).toBeGreaterThanOrEqual(1);
    expect(where.column).toBeLessThanOrEqual(lines[where.line! - 1]!.length + 1);
    expect(where.pointer).toBeTypeOf("string");
  }
}

describe("readCurriculum()", () => {
  test("answers any edit of a sound course with a result whose places are in the text", () => {
    fc.assert(
      fc.property(texts, fc.array(edit, { minLength: 1, maxLength: 4 }), (text, edits) => {
        expectPlacesInside(edits.reduce((edited, apply) => apply(edited), text));
      }),
      { numRuns: 400 },
    );
  });

  test("answers any text with a result whose places are in the text", () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 5 })), { maxLength: 60 }),
        (pieces) => expectPlacesInside(pieces.join("")),
      ),
      { numRuns: 500 },
    );
  });

  test("answers any data, written as YAML, with a result", () => {
    fc.assert(
      fc.property(
        fc.object({
          maxDepth: 4,
          key: fc.oneof(
            fc.string(),
            fc.constantFrom("curriculum", "patterns", "drills", "players", "ladders", "parts"),
          ),
        }),
        (data) => expectPlacesInside(stringify(data)),
      ),
      { numRuns: 200 },
    );
  });

  test("reads the same course from its text, from its text written again, and from JSON", () => {
    const flow = fc.record({
      text: texts,
      collectionStyle: fc.constantFrom("any" as const, "block" as const, "flow" as const),
      lineWidth: fc.constantFrom(0, 40, 80),
      defaultStringType: fc.constantFrom("PLAIN" as const, "QUOTE_DOUBLE" as const, "QUOTE_SINGLE" as const),
    });
    fc.assert(
      fc.property(flow, ({ text, ...style }) => {
        const course = courseFrom(text);
        const data: unknown = parse(text);
        expect(courseFrom(stringify(data, style))).toEqual(course);
        expect(courseFrom(JSON.stringify(data))).toEqual(course);
      }),
      { numRuns: 40 },
    );
  });

  test("leaves no trace of one reading in the next", () => {
    fc.assert(
      fc.property(texts, fc.array(edit, { minLength: 1, maxLength: 3 }), (text, edits) => {
        const before = JSON.stringify(read(text));
        read(edits.reduce((edited, apply) => apply(edited), text));
        expect(JSON.stringify(read(text))).toBe(before);
      }),
      { numRuns: 30 },
    );
  });
});
