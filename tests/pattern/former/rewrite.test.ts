import { describe, expect, test } from "vitest";
import { problemsIn } from "../../../lib/base/index.js";
import { formerNotes, parseChords, parseGrid, parseNotes, rewriteLine } from "../../../lib/pattern/index.js";
import { must } from "../../time/shorthand.js";
import { frame, noteTexts } from "../shorthand.js";

// Former lines and the notes they were read to, as the tests of their reader stated them.
const FORMER: readonly (readonly [string, readonly [string, number, string?], readonly string[]])[] = [
  ["D4/4 r/8 F4/8^ A4/4.. G4/16", ["4/4", 1], ["0 D4 1/4", "3/8 F4 1/8 !", "1/2 A4 7/16", "15/16 G4 1/16"]],
  ["D4/2 A4/4 A4/4~ | A4/4~ A4/8 r/8 r/2", ["4/4", 2], ["0 D4 1/2", "1/2 A4 1/4", "3/4 A4 5/8"]],
  [
    "3[D4/8 E4/8 F4/8] 5:4[D4/16 r/16 D4/16 D4/16 D4/16] 3[D4/4 E4/8] D4/4",
    ["4/4", 1],
    [
      ...["0 D4 1/12", "1/12 E4 1/12", "1/6 F4 1/12"],
      ...["1/4 D4 1/20", "7/20 D4 1/20", "2/5 D4 1/20", "9/20 D4 1/20"],
      ...["1/2 D4 1/6", "2/3 E4 1/12", "3/4 D4 1/4"],
    ],
  ],
  ["A4+D4/2~ D4+A4/2", ["4/4", 1], ["0 D4 1", "0 A4 1"]],
  ["r | D4/8 r/4 r/4 r/4", ["7/8", 2], ["7/8 D4 1/8"]],
  ["| D4/1 | % | % |", ["4/4", 3], ["0 D4 1", "1 D4 1", "2 D4 1"]],
  ["A3/8 | D4/1", ["4/4", 1, "1/8 note"], ["-1/8 A3 1/8", "0 D4 1"]],
  ["D4/8~ | D4/1", ["4/4", 1, "1/8 note"], ["-1/8 D4 9/8"]],
  ["D4/1", ["4/4", 1, "1/8 note"], ["0 D4 1"]],
  ["| D4/1", ["4/4", 1, "1/8 note"], ["0 D4 1"]],
];

describe("a line of the former spelling", () => {
  test.each(FORMER)("%s is read as it was, and its rewritten form gives the same notes", (line, within, notes) => {
    const bars = frame(...within);
    expect(noteTexts(formerNotes(line, bars)!)).toEqual(notes);
    expect(noteTexts(must(parseNotes(rewriteLine("notes", line, bars)!, bars)))).toEqual(notes);
  });

  test.each([
    ["notes", "D4/4^ r/4 F4/2~ | F4/1", 2, "1/4 D4! - 1/2 F4 | 1/1 tie"],
    ["notes", "D4/4. E4/8 F4/2 |\n  G4/8 A4/8 r/4  r/2", 2, "3/8 D4 1/8 E4 1/2 F4 |\n  1/8 G4 A4 1/4 -  1/2 -"],
    ["notes", "D4/4 3[F4/4 G4/8] E4/2", 1, "1/4 D4 3 in 2 [1/4 F4 1/8 G4] 1/2 E4"],
    ["notes", "D4/4 3[F4/8 G4/8 A4/8] E4/4 E4/4", 1, "1/4 D4 3 in 2 [1/8 F4 G4 A4] E4 E4"],
    ["notes", "r | D4/1 | %", 3, "rest | 1/1 D4 | same"],
    ["notes", "D4/1 | % | % | %", 4, "1/1 D4 | ..."],
    ["notes", "D4/1 | E4/1 | % | %", 4, "1/1 D4 | E4 | same | same"],
    ["notes", "D4/1~ | % | %~ ", 3, undefined],
    ["notes", "D4/1~ | % | D4/1", 3, "1/1 D4 | tie | tie"],
    ["notes", "D4/2~ D4/2 | %", 2, "1/2 D4 tie | same"],
    ["notes", "D4/1~ | D4/1 | %", 3, "1/1 D4 | tie | D4"],
    ["notes", "r/1 | r/2 r/2", 2, "rest | 1/2 - -"],
    ["notes", "D4/2~ D4/2^", 1, "1/2 D4 tie"],
    ["notes", "D4/2~ E4/2", 1, undefined],
    ["notes", "D4/q E4/2", 1, undefined],
    ["grid", "x-x- | % | % | x---", 4, "x-x- | same | same | x---"],
    ["grid", "x-x- | % | %", 3, "x-x- | ..."],
    ["chords", "Dm7 | %  | G7 | %", 4, "Dm7 | same  | G7 | same"],
  ] as const)("%s: %j over %d bars becomes %j", (kind, line, count, rewritten) =>
    expect(rewriteLine(kind, line, frame("4/4", count))).toBe(rewritten),
  );

  test("is none that has marks of the present one: it is left as it is", () => {
    const line = "1/4 D4~ F4_ G4-scoop A4-fall | ...";
    expect(rewriteLine("notes", line, frame("4/4", 2))).toBeUndefined();
    expect(noteTexts(must(parseNotes(line, frame("4/4", 2))))[0]).toBe("0 D4 1/4 ~");
  });

  test("without a pick-up where the pattern has one gets an empty one", () => {
    const bars = frame("4/4", 1, "1/8 note");
    expect(rewriteLine("grid", "x---", bars)).toBe("rest | x---");
    expect(rewriteLine("grid", "x | x---", bars)).toBe("x | x---");
    expect(rewriteLine("chords", "| Dm7", bars)).toBe("rest | Dm7");
    expect(rewriteLine("notes", "D4/1", bars)).toBe("rest | 1/1 D4");
  });

  test.each([
    ["D4/4 E4/4\n F4/2 | %", 0, "write: 1/4 D4 E4 1/2 F4 | same"],
    ["1/4 D4 E4 F4/2 | same", 10, "write: 1/2 F4"],
    ["D4/q E4/2~ F4/4 | %", 5, "write: 1/2 E4, then tie"],
    ["1/2 D4 r | same", 7, "write: -"],
    ["1/1 D4 | %", 9, "write: same"],
    ["3[D4/8 E4/8 F4/8] D4/2. | r", 0, "write: 3 in 2 [1/8 D4 E4 F4] 3/4 D4 | rest"],
  ])("%j is answered once, with the present spelling", (line, offset, remedy) => {
    expect(problemsIn(parseNotes(line, frame("4/4", 2)))).toMatchObject([
      { code: "FORMER_SPELLING", where: { offset }, remedy },
    ]);
  });

  test("is answered in drum lines and chords too, once a line", () => {
    const bars = frame("4/4", 3);
    const [hat, kick] = problemsIn(parseGrid({ hat: "xxxx | % | %", kick: "x--- | % | x-x-" }, bars));
    expect(hat).toMatchObject({
      code: "FORMER_SPELLING",
      where: { pointer: "/hat", offset: 7 },
      remedy: "write: xxxx | ...",
    });
    expect(kick).toMatchObject({ code: "FORMER_SPELLING", remedy: "write: x--- | same | x-x-" });
    expect(problemsIn(parseChords("Dm7 | % | G7", bars))).toMatchObject([
      { code: "FORMER_SPELLING", where: { offset: 6 }, remedy: "write: Dm7 | same | G7" },
    ]);
  });
});
