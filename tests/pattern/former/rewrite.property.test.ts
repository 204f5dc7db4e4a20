import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formerNotes, parseNotes, rewriteLine } from "../../../lib/pattern/index.js";
import { must } from "../../time/shorthand.js";
import { frame } from "../shorthand.js";

/** Values of the former spelling that fill a number of thirty-seconds. */
const VALUES = [
  ["/1", 32],
  ["/2.", 24],
  ["/2", 16],
  ["/4..", 14],
  ["/4.", 12],
  ["/4", 8],
  ["/8.", 6],
  ["/8", 4],
  ["/16", 2],
  ["/32", 1],
] as const;
const PITCHES = ["D4", "Bb3", "F#5", "C4+Eb4", "r"] as const;

/** A bar: for each word its place in VALUES, its pitch, whether it is accented, tied, or a triplet. */
const bars = fc.array(
  fc.oneof(
    { weight: 1, arbitrary: fc.constant("%" as const) },
    { weight: 1, arbitrary: fc.constant("r" as const) },
    {
      weight: 4,
      arbitrary: fc.array(
        fc.record({
          value: fc.nat(VALUES.length - 1),
          pitch: fc.constantFrom(...PITCHES),
          accent: fc.boolean(),
          tied: fc.boolean(),
          triplet: fc.integer({ min: 0, max: 5 }).map((n) => n === 0),
        }),
        { minLength: 1, maxLength: 10 },
      ),
    },
  ),
  { minLength: 1, maxLength: 6 },
);

/** A bar of the former spelling that is exactly `size` thirty-seconds long. */
function barOf(
  drawn: "%" | "r" | readonly { value: number; pitch: string; accent: boolean; tied: boolean; triplet: boolean }[],
  size: number,
  isFirst: boolean,
): string {
  if (drawn === "r" || (drawn === "%" && isFirst)) return "r";
  if (drawn === "%") return "%";
  let left = size;
  const words: string[] = [];
  for (const { value, pitch, accent, tied, triplet } of drawn) {
    const fitting = VALUES.slice(value).find(([, length]) => length <= left);
    if (!fitting) break;
    const marks = pitch === "r" ? "" : `${accent ? "^" : ""}${tied ? "~" : ""}`;
    if (triplet && left >= 8) {
      words.push(`3[${pitch}/8 ${pitch}/8${marks} ${pitch}/8${marks}]`);
      left -= 8;
    } else {
      words.push(`${pitch}${fitting[0]}${marks}`);
      left -= fitting[1];
    }
  }
  for (const [text, length] of VALUES)
    while (length <= left) {
      words.push(`r${text}`);
      left -= length;
    }
  return words.join(" ");
}

/** Ties that lead to another pitch, a rest or nothing were refused: they are left out here by trying. */
function mended(line: string, read: (line: string) => boolean): string {
  let text = line;
  for (let at = text.lastIndexOf("~"); at !== -1 && !read(text); at = text.lastIndexOf("~", at - 1)) {
    const without = text.slice(0, at) + text.slice(at + 1);
    text = read(text) ? text : without;
    if (at === 0) break;
  }
  return text;
}

describe("rewriteLine()", () => {
  const METERS = [
    ["4/4", 32],
    ["3/4", 24],
    ["7/8", 28],
  ] as const;
  test("gives a line with the same notes, and none of the former spelling, for every line that was read", () => {
    let ties = 0;
    let repeats = 0;
    fc.assert(
      fc.property(
        bars,
        fc.constantFrom(...METERS),
        fc.constantFrom("", "D4/8", "D4/8~", "|", "none"),
        (drawn, [meter, size], pickup) => {
          const within = pickup === "" ? frame(meter, drawn.length) : frame(meter, drawn.length, "1/8 note");
          const texts = drawn.map((bar, i) => barOf(bar, size, i === 0));
          const start = pickup === "" || pickup === "none" ? "" : pickup === "|" ? "| " : `${pickup} | `;
          const line = mended(start + texts.join(" | "), (text) => formerNotes(text, within) !== undefined);
          const notes = formerNotes(line, within);
          // A line whose first bar was as long as the pick-up, or a tie that could not be mended.
          fc.pre(notes !== undefined);
          const rewritten = rewriteLine("notes", line, within)!;
          if (/\btie\b/.test(rewritten)) ties++;
          if (/same|\.\.\./.test(rewritten)) repeats++;
          expect(must(parseNotes(rewritten, within))).toEqual(notes);
          expect(rewriteLine("notes", rewritten, within) ?? rewritten).toBe(rewritten);
        },
      ),
      { numRuns: 3000 },
    );
    expect(ties).toBeGreaterThan(100);
    expect(repeats).toBeGreaterThan(500);
  });
});
