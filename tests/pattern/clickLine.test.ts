import { describe, expect, test } from "vitest";
import { parseClick } from "../../lib/pattern/clickLine.js";
import { must } from "../time/shorthand.js";
import { worded } from "../words/worded.js";
import { compiled, frame, noteTexts } from "./shorthand.js";

const clicks = (text: string, meter: string, bars: number): readonly string[] =>
  noteTexts(must(parseClick(text, frame(meter, bars))));

describe("parseClick()", () => {
  test("every beat, the first of a bar higher and accented", () => {
    expect(clicks("every beat", "3/4", 1)).toEqual(["0 high click 1/4 !", "1/4 click 1/4", "1/2 click 1/4"]);
  });

  test("beats that are named, in every bar", () => {
    expect(clicks("beats 2 and 4", "4/4", 2)).toEqual([
      ...["1/4 click 1/4", "3/4 click 1/4"],
      ...["5/4 click 1/4", "7/4 click 1/4"],
    ]);
    expect(clicks("beat 3", "4/4", 1)).toEqual(["1/2 click 1/4"]);
    expect(clicks("beats 1, 2 and 4", "4/4", 1)).toHaveLength(3);
  });

  test("once a bar, and once in so many bars", () => {
    expect(clicks("every bar", "4/4", 2)).toEqual(["0 high click 1/4 !", "1 high click 1/4 !"]);
    expect(clicks("every 2 bars", "4/4", 4)).toEqual(["0 high click 1/4 !", "2 high click 1/4 !"]);
  });

  test("a beat of a compound meter is its dotted note, of an additive one its group", () => {
    expect(clicks("every beat", "12/8", 1)).toHaveLength(4);
    expect(clicks("every beat", "2+2+3/8", 1)).toEqual(["0 high click 1/4 !", "1/4 click 1/4", "1/2 click 3/8"]);
    expect(clicks("beat 3", "7/8", 1)).toEqual(["1/2 click 3/8"]);
  });

  test.each([
    ["each beat", "every beat"],
    ["Once a bar", undefined],
    ["every other bar", "every 2 bars"],
    ["2 & 4", "beats 2 and 4"],
    ["on 2 and 4", "beats 2 and 4"],
    ["backbeat", "beats 2 and 4"],
    ["every 4 measures", "every 4 bars"],
  ])("%s is answered with what to write, or with an example", (text, meant) => {
    const [problem] = worded(parseClick(text, frame("4/4", 4)));
    expect(problem?.code).toBe("CLICK_NOT_READ");
    expect(problem?.remedy).toBe(`write ${meant ?? "every bar"}`);
    expect(parseClick(meant ?? "every bar", frame("4/4", 4)).ok).toBe(true);
  });

  test("what no bar or phrase has room for is told with a remedy that reads", () => {
    expect(worded(parseClick("beats 2 and 4", frame("3/4", 1)))).toMatchObject([{ code: "CLICK_BEAT_OUTSIDE_BAR" }]);
    expect(worded(parseClick("every 4 bars", frame("4/4", 6)))).toMatchObject([
      { code: "CLICK_DOES_NOT_FILL_PHRASE", remedy: "write every 3 bars" },
    ]);
    expect(parseClick("every 0 bars", frame("4/4", 4)).ok).toBe(false);
  });

  test("a part with a click is percussion, and drops like any other part", () => {
    const pattern = compiled({
      meter: "4/4",
      bars: 2,
      parts: { metronome: { click: "beats 2 and 4" }, lead: { notes: "1/4 D4 E4 F4 G4 | ..." } },
    });
    expect(pattern.parts[0]).toMatchObject({ kind: "percussion", name: "metronome" });
    expect(pattern.parts[0]!.variants[""]).toHaveLength(4);
  });
});
