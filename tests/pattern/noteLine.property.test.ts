import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { add, compare, equals, fraction, multiply, subtract, ZERO } from "../../lib/base/index.js";
import { parseNotes } from "../../lib/pattern/index.js";
import { type NoteWord, readWords, type Word, wordsText, writtenLength } from "../../lib/pattern/noteWords.js";
import { barLength } from "../../lib/time/index.js";
import { must } from "../time/shorthand.js";
import { frame, pitch } from "./shorthand.js";

const pitches = fc.constantFrom("D4", "Bb3", "F#5", "Cb4", "G##2").map(pitch);
const notes: fc.Arbitrary<NoteWord> = fc.record({
  kind: fc.constant("note" as const),
  pitches: fc.array(pitches, { minLength: 1, maxLength: 3 }),
  value: fc.constantFrom(1, 2, 4, 8, 16, 32, 64),
  dots: fc.nat(2),
  accent: fc.boolean(),
  tied: fc.boolean(),
  offset: fc.constant(0),
});
const rests = notes.map((note) => ({ ...note, pitches: [], accent: false, tied: false }));
const triplets = fc
  .tuple(fc.array(notes, { minLength: 3, maxLength: 3 }), fc.constantFrom(4, 8, 16))
  .map(([words, value]) => ({
    kind: "tuplet" as const,
    count: 3,
    inTimeOf: 2,
    notes: words.map((word) => ({ ...word, value, dots: 0 })),
    offset: 0,
  }));
const words: fc.Arbitrary<readonly Word[]> = fc.array(fc.oneof(notes, rests, triplets), {
  minLength: 1,
  maxLength: 12,
});
const placeless = (list: readonly Word[]): unknown =>
  JSON.parse(JSON.stringify(list, (name, value: unknown) => (name === "offset" ? undefined : value)));

describe("a line of notes", () => {
  test("readWords() reads back what wordsText() writes", () => {
    fc.assert(
      fc.property(words, (list) => {
        const read = readWords(wordsText(list), 0);
        expect(read.problems).toEqual([]);
        expect(placeless(read.words)).toEqual(placeless(list));
      }),
    );
  });

  test("readWords() never throws, and either reads or complains inside the text", () => {
    const pieces = fc.constantFrom(
      "D4",
      "/",
      "4",
      "8",
      "3[",
      "[",
      "]",
      ":",
      "~",
      "^",
      "r",
      ".",
      "+",
      " ",
      "b",
      "#",
      "x",
      "♭",
      "%",
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 30 }), (parts) => {
        const text = parts.join("");
        const { words, problems } = readWords(text, 0);
        expect(words.length + problems.length > 0 || text.trim() === "").toBe(true);
        for (const { where } of problems) expect(where.offset).toBeLessThan(text.length);
      }),
    );
  });
});

/** Bars filled exactly: random values, then what is missing in rests. */
function filled(values: readonly (readonly [number, number])[], meter: string): string {
  const bar = barLength(frame(meter, 1).bars[0]!.meter);
  let left = bar;
  const out: string[] = [];
  const write = (name: string, value: number, dots: number): void => {
    const length = multiply(fraction(1, value), fraction(2 ** (dots + 1) - 1, 2 ** dots));
    if (compare(length, left) > 0) return;
    left = subtract(left, length);
    out.push(`${name}/${value}${".".repeat(dots)}`);
  };
  for (const [value, dots] of values) write("D4", value, dots);
  for (const value of [1, 2, 4, 8, 16, 32, 64, 128, 256])
    while (value <= 64 && compare(fraction(1, value), left) <= 0) write("r", value, 0);
  return out.join(" ");
}

describe("parseNotes()", () => {
  const meters = fc.constantFrom("4/4", "3/4", "7/8", "12/8", "5/16", "2/2");
  const values = fc.array(fc.tuple(fc.constantFrom(2, 4, 8, 16), fc.nat(1)), { maxLength: 16 });

  test("fills every bar exactly: notes lie inside their bars, in order, without overlap", () => {
    fc.assert(
      fc.property(meters, fc.array(values, { minLength: 1, maxLength: 5 }), (meter, bars) => {
        const within = frame(meter, bars.length);
        const line = bars.map((bar) => filled(bar, meter)).join(" | ");
        // Dotted sixteenths may leave a thirty-second over, which rests fill; nothing shorter occurs.
        const notes = must(parseNotes(line, within));
        let end = ZERO;
        for (const note of notes) {
          expect(compare(note.position, end)).toBeGreaterThanOrEqual(0);
          end = add(note.position, note.length);
          const bar = within.bars.findLast((b) => compare(b.position, note.position) <= 0)!;
          expect(compare(end, add(bar.position, barLength(bar.meter)))).toBeLessThanOrEqual(0);
        }
        expect(compare(end, within.length)).toBeLessThanOrEqual(0);
      }),
    );
  });

  test("refuses every bar that is not filled exactly, and only those", () => {
    fc.assert(
      fc.property(meters, words, (meter, list) => {
        const plain = list
          .map((word) => (word.kind === "note" ? { ...word, tied: false } : word))
          .filter((w) => w.kind === "note");
        if (plain.length === 0) return;
        const length = plain.reduce((sum, word) => add(sum, writtenLength(word)), ZERO);
        const within = frame(meter, 1);
        expect(parseNotes(wordsText(plain), within).ok).toBe(equals(length, within.length));
      }),
    );
  });
});
