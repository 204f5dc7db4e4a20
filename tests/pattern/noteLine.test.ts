import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import { parseNotes } from "../../lib/pattern/index.js";
import { must } from "../time/shorthand.js";
import { frame, noteTexts } from "./shorthand.js";

const read = (line: string, bars = frame("4/4", 1)): string[] => noteTexts(must(parseNotes(line, bars)));
const found = (line: string, bars = frame("4/4", 1)): string[] =>
  problemsIn(parseNotes(line, bars)).map((p) => `${p.code}@${p.where.offset}`);

describe("parseNotes() reads", () => {
  test("values, dots, rests and accents", () => {
    expect(read("D4/4 r/8 F4/8^ A4/4.. G4/16")).toEqual(["0 D4 1/4", "3/8 F4 1/8 ^", "1/2 A4 7/16", "15/16 G4 1/16"]);
  });
  test("ties within a bar and across the bar line, several in a row", () => {
    expect(read("D4/2 A4/4 A4/4~ | A4/4~ A4/8 r/8 r/2", frame("4/4", 2))).toEqual([
      "0 D4 1/2",
      "1/2 A4 1/4",
      "3/4 A4 5/8",
    ]);
  });
  test("triplets, other tuplets, and tuplets of unequal values", () => {
    expect(read("3[D4/8 E4/8 F4/8] 5:4[D4/16 r/16 D4/16 D4/16 D4/16] 3[D4/4 E4/8] D4/4")).toEqual([
      ...["0 D4 1/12", "1/12 E4 1/12", "1/6 F4 1/12"],
      ...["1/4 D4 1/20", "7/20 D4 1/20", "2/5 D4 1/20", "9/20 D4 1/20"],
      ...["1/2 D4 1/6", "2/3 E4 1/12", "3/4 D4 1/4"],
    ]);
    expect(read("2[D4/8 E4/8] 4[D4/8 D4/8 D4/8 D4/8]", frame("6/8", 1))[1]).toBe("3/16 E4 3/16");
  });
  test("chords, lowest note first, tied as one", () => {
    expect(read("A4+D4/2~ D4+A4/2")).toEqual(["0 D4 1", "0 A4 1"]);
  });
  test("a rest that fills its bar, whatever the meter", () => {
    expect(read("r | D4/8 r/4 r/4 r/4", frame("7/8", 2))).toEqual(["7/8 D4 1/8"]);
  });
  test("similes, also of similes, and a line that begins and ends with bar lines", () => {
    expect(read("| D4/1 | % | % |", frame("4/4", 3))).toEqual(["0 D4 1", "1 D4 1", "2 D4 1"]);
  });
});

describe("parseNotes() places a pick-up", () => {
  const bars = frame("4/4", 1, "1/8 note");
  test("before the first bar line", () => expect(read("A3/8 | D4/1", bars)).toEqual(["-1/8 A3 1/8", "0 D4 1"]));
  test("tied into bar 1", () => expect(read("D4/8~ | D4/1", bars)).toEqual(["-1/8 D4 9/8"]));
  test("and a part without one leaves it out or begins with a bar line", () => {
    expect(read("D4/1", bars)).toEqual(["0 D4 1"]);
    expect(read("| D4/1", bars)).toEqual(["0 D4 1"]);
  });
  test("of the wrong length is named", () => expect(found("A3/4 | D4/1", bars)).toEqual(["PICKUP_LENGTH_DIFFERS@0"]));
  test("even when a bar is missing", () =>
    expect(found("A3/8 | D4/1", frame("4/4", 2, "1/8 note"))).toEqual(["BAR_COUNT_DIFFERS@11"]));
});

describe("parseNotes() names what is wrong, and where", () => {
  test.each([
    ["D4/4 D4/4 D4/4", ["BAR_TOO_SHORT@0"]],
    ["D4/2 D4/2 D4/4", ["BAR_TOO_LONG@10"]],
    ["D4/2 D4/2.", ["NOTE_PAST_BAR_LINE@5"]],
    ["D4/2 r/2.", ["BAR_TOO_LONG@5"]],
    ["D4/2 D4/3 D4/4", ["NOTE_VALUE_NOT_POWER_OF_TWO@5"]],
    ["D4/128 D4/1", ["NOTE_VALUE_NOT_POWER_OF_TWO@0"]],
    ["D4 E4/2", ["NOTE_VALUE_MISSING@0"]],
    ["r D4/2", ["NOTE_VALUE_MISSING@0"]],
    ["H4/4 D4/2.", ["PITCH_NOT_READ@0"]],
    ["D4+H4/1", ["PITCH_NOT_READ@3"]],
    ["D4/1...", ["NOTE_NOT_READ@0"]],
    ["D4/1^^", ["NOTE_NOT_READ@0"]],
    ["r/1^", ["NOTE_NOT_READ@0"]],
    ["/4", ["NOTE_NOT_READ@0"]],
    ["D4/2~ E4/2", ["TIE_PITCHES_DIFFER@0"]],
    ["D4/2~ r/2", ["TIE_ENDS_NOWHERE@0"]],
    ["D4/1~", ["TIE_ENDS_NOWHERE@0"]],
    ["D4/2~ D4/2^", ["ACCENT_AFTER_TIE@6"]],
    ["3[D4/8 E4/8] D4/2.", ["TUPLET_NOT_FILLED@0"]],
    ["3[D4/8 E4/8 F4/8 D4/2.", ["TUPLET_NOT_READ@0"]],
    ["D4/1 ]", ["TUPLET_NOT_READ@5"]],
    ["[D4/8] D4/1", ["TUPLET_NOT_READ@0"]],
    ["D4/8[", ["TUPLET_NOT_READ@4"]],
    ["11[D4/8]", ["TUPLET_NOT_READ@0"]],
    ["3:3[D4/8 D4/8 D4/8]", ["TUPLET_NOT_READ@0"]],
    ["%", ["SIMILE_WITHOUT_BAR@0"]],
    ["", ["BAR_EMPTY@0"]],
    ["D4/1 | D4/1", ["BAR_COUNT_DIFFERS@7"]],
  ])("%j: %j", (line, codes) => expect(found(line)).toEqual(codes));

  test("all of it at once, each once, also where a simile repeats it", () => {
    const line = "D4/4 H4/4 D4/2 | % | D4/2 | D4/1 %";
    expect(found(line, frame("4/4", 4))).toEqual(["SIMILE_WITHOUT_BAR@28", "PITCH_NOT_READ@5", "BAR_TOO_SHORT@21"]);
  });

  test("a simile over a change of meter names the bar that repeats", () => {
    const changed = frame("4/4", 2);
    const bars = { ...changed, bars: [changed.bars[0]!, { ...frame("3/4", 2).bars[1]!, position: { n: 1, d: 1 } }] };
    expect(found("D4/2 D4/2 | %", bars)).toEqual(["NOTE_PAST_BAR_LINE@12"]);
  });

  test("with the bar, its length and what the meter wants in the message", () => {
    const message = problemsIn(parseNotes("D4/1 | D4/4", frame("4/4", 2)))[0]!.message;
    expect(message).toContain("bar 2");
    expect(message).toContain("1/4");
    expect(message).toContain("4/4");
  });

  test("no more than twenty times in one bar", () => {
    expect(found("]".repeat(50_000))).toHaveLength(20);
  });

  test("a short line of similes does not fill the memory", () => {
    const line = `${"D4/64 ".repeat(64)}|${"%|".repeat(999)}`;
    expect(problemsIn(parseNotes(line, frame("4/4", 1000))).map((p) => p.code)).toEqual(["TOO_MANY_NOTES"]);
  });
});
