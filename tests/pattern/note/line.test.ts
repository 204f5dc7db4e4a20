import { describe, expect, test } from "vitest";
import { parseNotes } from "../../../lib/pattern/index.js";
import { must } from "../../time/shorthand.js";
import { worded } from "../../words/worded.js";
import { frame, noteTexts } from "../shorthand.js";

const read = (line: string, bars = frame("4/4", 1)): string[] => noteTexts(must(parseNotes(line, bars)));
const found = (line: string, bars = frame("4/4", 1)): string[] =>
  worded(parseNotes(line, bars)).map((p) => `${p.code}@${p.where.offset}`);

describe("parseNotes() reads", () => {
  test("lengths that hold until the next one, silence and accents", () => {
    expect(read("1/4 D4 1/8 - F4! 7/16 A4 1/16 G4")).toEqual([
      ...["0 D4 1/4", "3/8 F4 1/8 !", "1/2 A4 7/16", "15/16 G4 1/16"],
    ]);
  });
  test("a length over a bar line, and one that is a sum", () => {
    expect(read("1/2 D4 E4 | F4 G4", frame("4/4", 2))).toEqual(["0 D4 1/2", "1/2 E4 1/2", "1 F4 1/2", "3/2 G4 1/2"]);
    expect(read("1/4+1/16 D4 11/16 -")).toEqual(["0 D4 5/16"]);
  });
  test("ties within a bar and across bar lines, several in a row, by the length in force", () => {
    expect(read("1/2 D4 1/4 A4 A4 | tie 1/8 tie - 1/2 -", frame("4/4", 2))).toEqual([
      ...["0 D4 1/2", "1/2 A4 1/4", "3/4 A4 5/8"],
    ]);
    expect(read("1/1 D4 | tie | tie", frame("4/4", 3))).toEqual(["0 D4 3"]);
  });
  test("tuplets: equal and unequal lengths, silence and ties in them, and the length before again after", () => {
    expect(
      read("1/4 3 in 2 [1/8 D4 E4 F4] D4 5 in 4 [1/16 D4 - D4 tie D4] 3 in 2 [1/8 D4 1/16 E4]", frame("7/8", 1)),
    ).toEqual([
      ...["0 D4 1/12", "1/12 E4 1/12", "1/6 F4 1/12", "1/4 D4 1/4"],
      ...["1/2 D4 1/20", "3/5 D4 1/10", "7/10 D4 1/20", "3/4 D4 1/12", "5/6 E4 1/24"],
    ]);
    expect(read("1/8 2 in 3 [D4 E4] 4 in 3 [D4 D4 D4 D4]", frame("6/8", 1))[1]).toBe("3/16 E4 3/16");
    expect(read("3 in 2[ 1/4 F4 1/8 G4 ] 3/4 D4")).toEqual(["0 F4 1/6", "1/6 G4 1/12", "1/4 D4 3/4"]);
  });
  test("chords, lowest note first, tied as one", () => {
    expect(read("1/2 A4+D4 tie")).toEqual(["0 D4 1", "0 A4 1"]);
  });
  test("silence alone in its bar is the whole bar, whatever the meter and the length in force", () => {
    expect(read("rest | 1/8 D4 1/4 - - - | -", frame("7/8", 3))).toEqual(["7/8 D4 1/8"]);
    expect(read("1/8 D4 3/4 - | mf - | 7/8 D4", frame("7/8", 3))).toEqual(["0 D4 1/8", "7/4 D4 7/8 mf"]);
  });
  test("short notes, ghost notes and loudness, which holds until the next one", () => {
    expect(read("mf 1/4 D4. (E4) ff F4!. (C4+Eb4).")).toEqual([
      ...["0 D4 1/4 . mf", "1/4 E4 1/4 () mf", "1/2 F4 1/4 ! . ff", "3/4 C4 1/4 . () ff", "3/4 Eb4 1/4 . () ff"],
    ]);
  });
  test("held notes, scoops, falls and slurs, in any order, on chords too", () => {
    expect(read("1/4 D4_ F4-scoop! (G4)-fall A4-scoop-fall")).toEqual([
      ...["0 D4 1/4 _", "1/4 F4 1/4 ! -scoop", "1/2 G4 1/4 -fall ()", "3/4 A4 1/4 -scoop -fall"],
    ]);
    expect(read("1/2 C4+Eb4~_ D4+F4")).toEqual(["0 C4 1/2 _ ~", "0 Eb4 1/2 _ ~", "1/2 D4 1/2", "1/2 F4 1/2"]);
    expect(read("1/2 B-1-fall A-1~! | 1/1 C0", frame("4/4", 2))).toEqual([
      "0 B-1 1/2 -fall",
      "1/2 A-1 1/2 ! ~",
      "1 C0 1",
    ]);
  });
  test("slurs over bar lines, ties, tuplets and repeated bars: each from its note to the one after it", () => {
    expect(read("1/2 D4 E4~ | 1/4 tie F4~ 3 in 2 [1/4 G4~ A4 B4~] | 1/1 C5", frame("4/4", 3))).toEqual([
      ...["0 D4 1/2", "1/2 E4 3/4 ~", "5/4 F4 1/4 ~", "3/2 G4 1/6 ~", "5/3 A4 1/6", "11/6 B4 1/6 ~", "2 C5 1"],
    ]);
    expect(read("1/2 D4 E4~ | same | 1/1 D4", frame("4/4", 3))).toEqual([
      ...["0 D4 1/2", "1/2 E4 1/2 ~", "1 D4 1/2", "3/2 E4 1/2 ~", "2 D4 1"],
    ]);
    expect(read("1/8 A3~ | 1/2 D4~ E4 | ...", frame("4/4", 2, "1/8 note"))).toEqual([
      ...["-1/8 A3 1/8 ~", "0 D4 1/2 ~", "1/2 E4 1/2", "1 D4 1/2 ~", "3/2 E4 1/2"],
    ]);
  });
  test("same is the bar before and changes neither length nor loudness", () => {
    expect(read("1/2 D4 mf 1/4 E4 p E4 | same | F4 G4 A4 B4", frame("4/4", 3))).toEqual([
      ...["0 D4 1/2", "1/2 E4 1/4 mf", "3/4 E4 1/4 p", "1 D4 1/2", "3/2 E4 1/4 mf", "7/4 E4 1/4 p"],
      ...["2 F4 1/4 p", "9/4 G4 1/4 p", "5/2 A4 1/4 p", "11/4 B4 1/4 p"],
    ]);
    expect(read("| 1/1 D4 | same | same |", frame("4/4", 3))).toEqual(["0 D4 1", "1 D4 1", "2 D4 1"]);
  });
  test("... repeats the bars so far to the end of the pattern, also a part of them, and nothing when the pattern is full", () => {
    expect(read("1/1 D4 | E4 | ...", frame("4/4", 5))).toEqual(["0 D4 1", "1 E4 1", "2 D4 1", "3 E4 1", "4 D4 1"]);
    expect(read("1/1 D4 | same | F4 | ...", frame("4/4", 6))[4]).toBe("4 D4 1");
    expect(read("1/1 D4 | ...")).toEqual(["0 D4 1"]);
  });
  test("a tie at the beginning of a repeated bar goes on with the note before it there", () => {
    expect(read("1/1 D4 | tie | same", frame("4/4", 3))).toEqual(["0 D4 3"]);
    expect(read("1/8 A3 | 1/2 tie D4 | ...", frame("4/4", 2, "1/8 note"))).toEqual([
      "-1/8 A3 5/8",
      "1/2 D4 1",
      "3/2 D4 1/2",
    ]);
  });
});

describe("parseNotes() places a pick-up", () => {
  const bars = frame("4/4", 1, "1/8 note");
  test("before the first bar line", () => expect(read("1/8 A3 | 1/1 D4", bars)).toEqual(["-1/8 A3 1/8", "0 D4 1"]));
  test("going on into bar 1", () => expect(read("1/8 D4 | 1/1 tie", bars)).toEqual(["-1/8 D4 9/8"]));
  test("empty when the line begins with rest", () => expect(read("rest | 1/1 D4", bars)).toEqual(["0 D4 1"]));
  test("that ... never repeats", () => {
    expect(read("1/8 A3 | 1/1 D4 | ...", frame("4/4", 3, "1/8 note"))).toEqual([
      ...["-1/8 A3 1/8", "0 D4 1", "1 D4 1", "2 D4 1"],
    ]);
    expect(found("1/8 A3 | ...", bars)).toEqual(["REPEAT_MISPLACED@9"]);
  });
  test("of the wrong length is named", () =>
    expect(found("1/4 A3 | 1/1 D4", bars)).toEqual(["PICKUP_LENGTH_DIFFERS@0"]));
  test("that is left out is named", () => {
    expect(found("1/1 D4", bars)).toEqual(["PICKUP_MISSING@0"]);
    expect(found("| 1/1 D4", bars)).toEqual(["PICKUP_MISSING@2"]);
  });
  test("even when a bar is missing", () =>
    expect(found("1/8 A3 | 1/1 D4", frame("4/4", 2, "1/8 note"))).toEqual(["BAR_COUNT_DIFFERS@15"]));
});

describe("parseNotes() names what is wrong, and where", () => {
  test.each([
    ["1/4 D4 D4 D4", ["BAR_TOO_SHORT@0"]],
    ["1/2 D4 D4 1/4 D4", ["BAR_TOO_LONG@14"]],
    ["1/2 D4 3/4 D4", ["NOTE_PAST_BAR_LINE@11"]],
    ["1/2 D4 3/4 tie", ["NOTE_PAST_BAR_LINE@11"]],
    ["1/2 D4 3/4 -", ["BAR_TOO_LONG@11"]],
    ["1/2 - tie", ["TIE_WITHOUT_NOTE@6"]],
    ["1/1 tie", ["TIE_WITHOUT_NOTE@4"]],
    ["1/2 D4~ -", ["SLUR_WITHOUT_NOTE@4"]],
    ["1/2 D4 E4~", ["SLUR_WITHOUT_NOTE@7"]],
    ["1/4 D4~ tie 1/2 -", ["SLUR_WITHOUT_NOTE@4"]],
    ["1/2 D4~ D4", ["SLUR_ON_ONE_PITCH@4"]],
    ["1/2 D#4~ Eb4", ["SLUR_ON_ONE_PITCH@4"]],
    ["1/2 D4+F4~ F4", ["SLUR_ON_ONE_PITCH@4"]],
    ["3 in 2 [1/8 D4 E4] 3/4 D4", ["TUPLET_NOT_FILLED@0"]],
    ["3 in 2 [1/8 D4 E4 F4 3/4 D4", ["TUPLET_NOT_READ@0"]],
    ["3 in 2 [1/8 D4 2 in 3 [E4 F4]] 3/4 D4", ["TUPLET_NOT_READ@15", "TUPLET_NOT_READ@29"]],
    ["1/1 D4 ]", ["TUPLET_NOT_READ@7"]],
    ["[1/8 D4] 1/1 D4", ["TUPLET_NOT_READ@0"]],
    ["17 in 16 [1/8 D4] 3/4 D4", ["TUPLET_NOT_READ@0"]],
    ["3 in 3 [1/8 D4 D4 D4] 3/4 D4", ["TUPLET_NOT_READ@0"]],
    ["same", ["REPEAT_MISPLACED@0"]],
    ["...", ["REPEAT_MISPLACED@0"]],
    ["1/1 D4 ...", ["REPEAT_MISPLACED@7"]],
    ["", ["BAR_EMPTY@0"]],
    ["1/1 D4 | D4", ["BAR_COUNT_DIFFERS@9"]],
    ["1/1 D4 | D4 | ...", ["BAR_COUNT_DIFFERS@9"]],
  ])("%j: %j", (line, codes) => expect(found(line)).toEqual(codes));

  test("a slur that ... repeats into the end, at the ...", () => {
    expect(found("1/2 D4 E4~ | ...", frame("4/4", 2))).toEqual(["SLUR_WITHOUT_NOTE@13"]);
  });

  test("all of it at once, each once, also where a bar repeats it", () => {
    const line = "1/4 D4 H4 1/2 D4 | same | 1/2 D4 | 1/1 D4 same | ...";
    expect(found(line, frame("4/4", 5))).toEqual(["REPEAT_MISPLACED@42", "PITCH_NOT_READ@7", "BAR_TOO_SHORT@26"]);
  });

  test("a length that was not read once, not at every note that it holds for", () => {
    expect(found("1/3 D4 E4 | F4 | 1/1 F4 | F4 F4", frame("4/4", 4))).toEqual([
      "NOTE_LENGTH_NOT_READ@0",
      "BAR_TOO_LONG@29",
    ]);
    expect(found("D4 E4 | F4 | 1/1 F4", frame("4/4", 3))).toEqual(["NOTE_LENGTH_MISSING@0"]);
  });

  test("a repeated bar that does not fit a changed meter, at the place that repeats it", () => {
    const changed = frame("4/4", 2);
    const bars = { ...changed, bars: [changed.bars[0]!, { ...frame("3/4", 2).bars[1]!, position: { n: 1, d: 1 } }] };
    expect(found("1/2 D4 D4 | same", bars)).toEqual(["NOTE_PAST_BAR_LINE@12"]);
    expect(found("1/2 D4 D4 | ...", bars)).toEqual(["NOTE_PAST_BAR_LINE@12"]);
    expect(found("rest | ...", bars)).toEqual([]);
  });

  test("with the bar, its length and what the meter wants in the message", () => {
    const message = worded(parseNotes("1/1 D4 | 1/4 D4", frame("4/4", 2)))[0]!.message;
    expect(message).toContain("bar 2");
    expect(message).toContain("1/4");
    expect(message).toContain("4/4");
  });

  test("with the bars of this line and of the pattern in the message", () => {
    expect(worded(parseNotes("1/1 D4", frame("4/4", 2)))[0]!.message).toBe("this line has 1 bar; the pattern has 2");
  });

  test("a ... that is not at the end, with same as remedy", () => {
    const problems = worded(parseNotes("1/1 D4 | ... | D4", frame("4/4", 3)));
    expect(problems).toMatchObject([{ code: "REPEAT_MISPLACED", where: { offset: 9 }, remedy: "write same" }]);
  });

  test("no more than twenty times in one bar", () => {
    expect(found("]".repeat(50_000))).toHaveLength(20);
  });

  test("a short line of repeated bars does not fill the memory", () => {
    const line = `1/64 ${"D4 ".repeat(64)}| ...`;
    expect(worded(parseNotes(line, frame("4/4", 1000))).map((p) => p.code)).toEqual(["TOO_MANY_NOTES"]);
  });
});

const MARKS =
  "marks stand right after the note: D4! accent, D4. short, D4_ held, D4~ slurred to the note after it, D4-scoop, D4-fall";
const TIE_OR_MARK =
  "write tie for a note that goes on, or a mark right after its note: D4_ held, D4~ slurred to the note after it";

describe("a slip of the pen is answered with what to write", () => {
  test.each([
    ["1/4. D4", "NOTE_LENGTH_NOT_READ", "write 3/8"],
    ["1/8.. D4", "NOTE_LENGTH_NOT_READ", "write 7/32"],
    ["1/3 D4", "NOTE_LENGTH_NOT_READ", "for triplets write 3 in 2 [1/8 D4 E4 F4]"],
    ["1/4D4", "NOTE_LENGTH_NOT_READ", "put a blank between them: 1/4 D4"],
    ["1/4 F", "PITCH_NOT_READ", "write F4"],
    ["1/4 Bb", "PITCH_NOT_READ", "write Bb4"],
    ["1/4 d", "PITCH_NOT_READ", "write D4"],
    ["1/4 H3", "PITCH_NOT_READ", "write B3"],
    ["1/4 D4,", "PITCH_NOT_READ", "write D4"],
    ["1/4 D4>", "PITCH_NOT_READ", "write D4!"],
    ["1/4 D4E4", "PITCH_NOT_READ", "put blanks between notes: D4 E4"],
    ["4 D4", "NOTE_NOT_READ", "write 1/4 for a length, or 3 in 2 [ for a tuplet"],
    ["1/4 D4 !", "NOTE_NOT_READ", MARKS],
    ["1/4 D4 fall", "NOTE_NOT_READ", MARKS],
    ["1/4 D4 -scoop", "NOTE_NOT_READ", MARKS],
    ["1/4 D4 legato", "NOTE_NOT_READ", MARKS],
    ["1/2 D4 tie~", "NOTE_NOT_READ", MARKS],
    ["1/4 D4-doit", "PITCH_NOT_READ", MARKS],
    ["1/4 D4fall", "PITCH_NOT_READ", "write D4-fall"],
    ["1/4 D4-falloff", "PITCH_NOT_READ", "write D4-fall"],
    ["1/4 D4scoop", "PITCH_NOT_READ", "write D4-scoop"],
    ["1/4 D4ten", "PITCH_NOT_READ", "write D4_"],
    ["1/4 D4-", "PITCH_NOT_READ", "write D4 - for a silence after it, or D4_ for a note that is held"],
    ["1/4 D4._", "NOTE_NOT_READ", "write D4. or D4_"],
    ["1/4 D4-fall~ E4", "NOTE_NOT_READ", "write D4-fall or D4~"],
    [
      "1/2 D4~ D4",
      "SLUR_ON_ONE_PITCH",
      "write tie in place of the second note for one long note, or take the ~ off to play it anew",
    ],
    ["1/4 !D4", "NOTE_NOT_READ", "write D4!"],
    ["1/4 Tie", "NOTE_NOT_READ", "write tie"],
    ["1/4 --", "NOTE_NOT_READ", "write - for silence, once for each length"],
    ["1/4 z", "NOTE_NOT_READ", "write - for silence, once for each length"],
    ["1/4 D4 hold", "NOTE_NOT_READ", "write tie for a note that goes on"],
    ["1/4 D4 ~", "NOTE_NOT_READ", TIE_OR_MARK],
    ["1/4 D4 _", "NOTE_NOT_READ", TIE_OR_MARK],
    ["fff 1/4 D4", "NOTE_NOT_READ", "loudness is one of pp, p, mp, mf, f, ff"],
    ["1/4 (D4", "NOTE_NOT_READ", "write (D4) for a ghost note"],
    ["1/4 (D4)!", "NOTE_NOT_READ", "write (D4) or D4!"],
    ["1/4 D4!!", "NOTE_NOT_READ", "write for instance 1/4 D4 - F4! 1/8 A4 G4"],
    ["quarter D4", "NOTE_NOT_READ", "write 1/4"],
    ["D4", "NOTE_LENGTH_MISSING", "write for instance 1/4 for quarters"],
    ["3 [1/8 D4 E4 F4]", "NOTE_NOT_READ", "write 1/3 for a length, or 3 in 2 [ for a tuplet"],
    ["1/2 D4 3/4 E4", "NOTE_PAST_BAR_LINE", "end it at the bar line and begin the next bar with tie"],
    ["1/1 D4 | same | same", "BAR_COUNT_DIFFERS", "leave out what is too much"],
    ["1/1 D4 same", "REPEAT_MISPLACED", "write | same"],
  ])("%j: %s, %s", (line, code, remedy) => {
    expect(worded(parseNotes(line, frame("4/4", 1)))).toContainEqual(expect.objectContaining({ code, remedy }));
  });
});
