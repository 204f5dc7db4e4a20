import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { add, compare, equals, fraction, problemsIn, ZERO } from "../../../lib/base/index.js";
import { marksOf, parseNotes } from "../../../lib/pattern/index.js";
import { readWords, type Word, wordsText } from "../../../lib/pattern/note/lineWords.js";
import type { SimpleWord } from "../../../lib/pattern/note/token.js";
import { must } from "../../time/shorthand.js";
import { frame, pitch } from "../shorthand.js";

const offset = 0;
const pitches = fc.constantFrom("D4", "Bb3", "F#5", "Cb4", "G##2", "A-1").map(pitch);
const lengths = fc
  .tuple(fc.constantFrom(1, 3, 5, 7), fc.constantFrom(1, 2, 4, 8, 16, 32, 64, 256))
  .map(([n, d]) => fraction(n, d));
const simple: fc.Arbitrary<SimpleWord> = fc.oneof(
  lengths.map((length) => ({ kind: "length" as const, length, offset })),
  fc.constantFrom({ kind: "rest" as const, offset }, { kind: "tie" as const, offset }),
  fc
    .constantFrom("pp" as const, "p" as const, "mp" as const, "mf" as const, "f" as const, "ff" as const)
    .map((loudness) => ({ kind: "loudness" as const, loudness, offset })),
  fc
    .record({
      kind: fc.constant("sound" as const),
      pitches: fc.array(pitches, { minLength: 1, maxLength: 3 }),
      accent: fc.boolean(),
      marks: fc
        .subarray(["short", "tenuto", "slurred", "scoop", "fall", "ghost"] as const)
        .map((marks) => marksOf(Object.fromEntries(marks.map((mark) => [mark, true]))))
        // No note is both short and held, and none falls off and goes on.
        .filter(({ short, tenuto, slurred, fall }) => !(short && tenuto) && !(slurred && fall)),
      offset: fc.constant(offset),
    })
    .map((sound) => ({ ...sound, accent: sound.accent && !sound.marks.ghost })),
);
const tuplets: fc.Arbitrary<Word> = fc.record({
  kind: fc.constant("tuplet" as const),
  count: fc.constantFrom(3, 5, 6, 7),
  inTimeOf: fc.constantFrom(2, 4),
  words: fc.array(simple, { minLength: 1, maxLength: 6 }),
  offset: fc.constant(offset),
});
const words: fc.Arbitrary<readonly Word[]> = fc.array(fc.oneof({ weight: 5, arbitrary: simple }, tuplets), {
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
      { numRuns: 1000 },
    );
  });

  const pieces = fc.constantFrom(
    ...["D4", "1/", "4", "8", "1/8", "3 in 2 [", "in", "[", "]", "tie", "-", "rest", "!", ".", "(", ")", "+", " ", "b"],
    ...["#", "x", "♭", "%", "same", "...", "|", "mf", "~", "/8", "^", "3["],
  );

  test("readWords() never throws, and either reads or complains inside the text", () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 30 }), (parts) => {
        const text = parts.join("");
        const { words, problems } = readWords(text, 0);
        expect(words.length + problems.length > 0 || text.trim() === "").toBe(true);
        for (const { where } of problems) expect(where.offset).toBeLessThan(text.length);
      }),
    );
  });

  test("parseNotes() never throws: notes that fill the bars in order of time, or problems at places in the line", () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 30 }), fc.constantFrom(undefined, "1/8 note"), (parts, pickup) => {
        const line = parts.join(" ");
        const within = frame("4/4", 2, pickup);
        const read = parseNotes(line, within);
        for (const { where } of problemsIn(read)) expect(where.offset).toBeLessThanOrEqual(line.length);
        if (!read.ok) expect(read.problems.length).toBeGreaterThan(0);
        else
          for (const note of read.value)
            expect(compare(add(note.position, note.length), within.length)).toBeLessThanOrEqual(0);
      }),
      { numRuns: 1000 },
    );
  });
});

describe("parseNotes()", () => {
  const meters = fc.constantFrom("4/4", "3/4", "7/8", "12/8", "5/16", "2/2");
  /** Words that sound one after the other, each with a length of its own. */
  const plain = fc.array(fc.tuple(lengths, fc.constantFrom("D4", "Bb3+F4", "-", "F4!", "(A4).")), {
    minLength: 1,
    maxLength: 10,
  });

  test("refuses every bar that is not filled exactly, and only those", () => {
    fc.assert(
      fc.property(meters, plain, (meter, list) => {
        const total = list.reduce((sum, [length]) => add(sum, length), ZERO);
        const within = frame(meter, 1);
        const line = list.map(([length, word]) => `${length.n}/${length.d} ${word}`).join(" ");
        expect(parseNotes(line, within).ok).toBe(equals(total, within.length));
      }),
    );
  });

  /** Bars of a meter cut at random places of a grid of sixteenths: a word and its length in sixteenths. */
  const cut = (sixteenths: number) =>
    fc
      .array(
        fc.tuple(
          fc.integer({ min: 1, max: 6 }),
          fc.constantFrom("D4", "E4+G4", "-", "tie", "F4!_", "(A4)-scoop", "Bb4.-fall"),
        ),
        {
          minLength: 1,
          maxLength: 16,
        },
      )
      .map((drawn) => {
        let left = sixteenths;
        const list: [number, string][] = [];
        for (const [length, word] of drawn) {
          if (left > 0) list.push([Math.min(length, left), word]);
          left -= Math.min(length, left);
        }
        if (left > 0) list.push([left, "-"]);
        return list;
      });
  const lines = fc
    .constantFrom(["4/4", 16] as const, ["7/8", 14] as const, ["5/16", 5] as const)
    .chain(([meter, size]) => fc.array(cut(size), { minLength: 1, maxLength: 4 }).map((bars) => ({ meter, bars })));

  test("does not care whether a length is written again where it holds already", () => {
    fc.assert(
      fc.property(lines, ({ meter, bars }) => {
        let sounds = false;
        for (const bar of bars)
          for (const event of bar) {
            if (event[1] === "tie" && !sounds) event[1] = "C4";
            sounds = event[1] !== "-";
          }
        const spelledOut = bars.map((bar) => bar.map(([length, word]) => `${length}/16 ${word}`).join(" ")).join(" | ");
        let inForce = 0;
        const short = bars
          .map((bar) =>
            bar
              .map(([length, word]) => {
                // Silence alone in a bar is the whole bar, which is what it is here.
                const text = length === inForce ? word : `${length}/16 ${word}`;
                inForce = length;
                return text;
              })
              .join(" "),
          )
          .join(" | ");
        const within = frame(meter, bars.length);
        const notes = must(parseNotes(spelledOut, within));
        expect(must(parseNotes(short, within))).toEqual(notes);
        let end = ZERO;
        for (const note of notes) {
          expect(compare(note.position, end) >= 0 || note.pitch?.letter === "G").toBe(true);
          end = add(note.position, note.length);
          expect(compare(end, within.length)).toBeLessThanOrEqual(0);
        }
      }),
      { numRuns: 1000 },
    );
  });

  test("same and ... give the notes of the bars written out, when no tie leads over their edges", () => {
    fc.assert(
      fc.property(lines, fc.integer({ min: 1, max: 9 }), ({ meter, bars }, count) => {
        const texts = bars.map((bar) =>
          bar.map(([length, word]) => `${length}/16 ${word === "tie" ? "D4" : word}`).join(" "),
        );
        const within = frame(meter, Math.max(count, texts.length));
        const full = within.bars.map((_, i) => texts[i % texts.length]!);
        const expected = must(parseNotes(full.join(" | "), within));
        expect(must(parseNotes([...texts, "..."].join(" | "), within))).toEqual(expected);
        const similes = full.map((text, i) => (text === full[i - 1] ? "same" : text));
        expect(must(parseNotes(similes.join(" | "), within))).toEqual(expected);
      }),
    );
  });

  test("fills the bars of any meter with silence", () => {
    fc.assert(
      fc.property(meters, fc.integer({ min: 1, max: 5 }), (meter, count) => {
        const within = frame(meter, count);
        expect(must(parseNotes("rest | ...", within))).toEqual([]);
      }),
    );
  });
});
