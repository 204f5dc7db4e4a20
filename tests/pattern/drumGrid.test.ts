import { describe, expect, test } from "vitest";
import { PERCUSSION, parseChords, parseGrid, voiceOn } from "../../lib/pattern/index.js";
import { PERCUSSION_KEYS } from "../reference/percussionKeys.js";
import { must } from "../time/shorthand.js";
import { worded } from "../words/worded.js";
import { frame, noteTexts } from "./shorthand.js";

describe("parseGrid()", () => {
  test("places hits and accents of several voices in order of time", () => {
    const notes = must(parseGrid({ hat: "x-x- x-x-", snare: "--X---X-", kick: "x---|" }, frame("4/4", 1)));
    expect(noteTexts(notes)).toEqual([
      ...["0 hat 1/8", "0 kick 1/4", "1/4 hat 1/8", "1/4 snare 1/8 !"],
      ...["1/2 hat 1/8", "3/4 hat 1/8", "3/4 snare 1/8 !"],
    ]);
  });

  test.each([
    ["4/4", [1, 2, 4, 8, 12, 16, 24, 32], [3, 5, 6, 7, 9, 10, 15, 20]],
    ["7/8", [1, 7, 14, 21, 28], [2, 4, 6, 8, 13, 35]],
    ["12/8", [1, 2, 4, 8, 12, 24], [3, 5, 6, 10, 20]],
    ["3/4", [1, 3, 6, 9, 12, 18], [2, 4, 5, 8, 15]],
  ])("in %s takes %j characters and refuses %j", (meter, good, bad) => {
    for (const count of good) expect(parseGrid({ hat: "x".repeat(count) }, frame(meter, 1)).ok).toBe(true);
    for (const count of bad) {
      const problems = worded(parseGrid({ hat: "x".repeat(count) }, frame(meter, 1)));
      expect(problems.map((p) => p.code)).toEqual(["GRID_DOES_NOT_DIVIDE_BAR"]);
    }
  });

  test("a pick-up is cut by the beats it takes", () => {
    const notes = must(parseGrid({ snare: "xx | x---" }, frame("4/4", 1, "1/8 note")));
    expect(noteTexts(notes)).toEqual(["-1/8 snare 1/16", "-1/16 snare 1/16", "0 snare 1/4"]);
    for (const line of ["- | x---", "rest | x---"]) {
      expect(noteTexts(must(parseGrid({ snare: line }, frame("4/4", 1, "1/8 note"))))).toEqual(["0 snare 1/4"]);
    }
    expect(worded(parseGrid({ snare: "x---" }, frame("4/4", 1, "1/8 note")))).toMatchObject([
      { code: "PICKUP_MISSING", remedy: "begin the line with rest |" },
    ]);
  });

  test("a ghost stroke, a silent bar, same and ...", () => {
    expect(noteTexts(must(parseGrid({ snare: "xg-- | same | rest | ..." }, frame("4/4", 6))))).toEqual([
      ...["0 snare 1/4", "1/4 snare 1/4 ()", "1 snare 1/4", "5/4 snare 1/4 ()"],
      ...["3 snare 1/4", "13/4 snare 1/4 ()", "4 snare 1/4", "17/4 snare 1/4 ()"],
    ]);
  });

  test.each([
    ["o", "write x"],
    [">", "write X"],
    ["(", "write g"],
    [".", "write -"],
  ])("%s is answered with what to write", (character, remedy) => {
    expect(worded(parseGrid({ hat: `x${character}x-` }, frame("4/4", 1)))).toMatchObject([
      { code: "GRID_NOT_READ", where: { offset: 1 }, remedy },
    ]);
  });

  test("names voices and characters it does not know, with their places", () => {
    const problems = worded(parseGrid({ snar: "x---", hat: "x-o-" }, frame("4/4", 1)));
    expect(problems).toMatchObject([
      { code: "VOICE_UNKNOWN", where: { pointer: "/snar" }, remedy: "write snare" },
      { code: "GRID_NOT_READ", where: { pointer: "/hat", offset: 2 } },
    ]);
    expect(worded(parseGrid({ "a/b~c": "x---" }, frame("4/4", 1)))[0]!.where.pointer).toBe("/a~1b~0c");
  });

  test("does not fill the memory with repeated bars", () => {
    const line = `${"x".repeat(32)} | ...`;
    const problems = worded(parseGrid({ hat: line, snare: line }, frame("4/4", 1000)));
    expect(problems.map((p) => p.code)).toEqual(["TOO_MANY_NOTES"]);
  });
});

describe("percussion voices", () => {
  test.each(PERCUSSION_KEYS)("%s is on key %d", (name, key) => expect(PERCUSSION.get(name)).toBe(key));

  test("every key in the table has a name that leads back to it, and each lies from 31 to 81", () => {
    for (const key of PERCUSSION.values()) {
      expect(PERCUSSION.get(voiceOn(key)!)).toBe(key);
      expect(key).toBeGreaterThanOrEqual(31);
      expect(key).toBeLessThanOrEqual(81);
    }
    expect(voiceOn(32)).toBeUndefined();
  });
});

describe("parseChords()", () => {
  const shares = (line: string, meter: string, bars = 1): string[] =>
    must(parseChords(line, frame(meter, bars))).map((c) => `${c.text} ${c.length.n}/${c.length.d}`);

  test.each([
    ["G7 C7", "4/4", ["G7 1/2", "C7 1/2"]],
    ["G7 C7", "3/4", ["G7 1/2", "C7 1/4"]],
    ["G7 C7 F", "4/4", ["G7 1/2", "C7 1/4", "F 1/4"]],
    ["G7 C7 F", "2+2+3/8", ["G7 1/4", "C7 1/4", "F 3/8"]],
    ["G7 C7", "2+2+3/8", ["G7 1/2", "C7 3/8"]],
    ["G7 C7", "12/8", ["G7 3/4", "C7 3/4"]],
    ["N.C.", "4/4", ["N.C. 1/1"]],
  ])("%s shares a bar of %s as %j", (line, meter, expected) => expect(shares(line, meter)).toEqual(expected));

  test("same is the bar before, and rest has no chord", () => {
    expect(shares("rest | Dm7", "4/4", 2)).toEqual(["Dm7 1/1"]);
    expect(shares("Dm7 G7 | same", "4/4", 2)).toEqual(["Dm7 1/2", "G7 1/2", "Dm7 1/2", "G7 1/2"]);
  });

  test.each([
    "Dm7",
    "B♭7/D",
    "F#m7b5",
    "Cmaj9",
    "Gsus4",
    "A7alt",
    "Bb6/9",
    "C°7",
    "EbΔ7",
    "F+",
    "D7(b9,#11)",
    "Am(add9)",
    "Gmin11",
    "Cdim",
  ])("%s is usual", (chord) => expect(parseChords(chord, frame("4/4", 1))).toMatchObject({ ok: true, advice: [] }));
  test("an odd quality is advice, a missing root an error, both at their place", () => {
    expect(worded(parseChords("Dm7 Gwhat", frame("4/4", 1)))).toMatchObject([
      { code: "CHORD_UNUSUAL", severity: "advice", where: { offset: 4 } },
    ]);
    expect(worded(parseChords("Dm7 7", frame("4/4", 1)))).toMatchObject([
      { code: "CHORD_NOT_READ", severity: "error", where: { offset: 4 } },
    ]);
    expect(worded(parseChords("C D E F G", frame("4/4", 1)))).toMatchObject([{ code: "CHORDS_MORE_THAN_BEATS" }]);
  });
});
