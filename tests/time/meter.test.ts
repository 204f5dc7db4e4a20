import { describe, expect, test } from "vitest";
import { fraction, problemsIn } from "../../lib/base/index.js";
import { barLength, beatOf, meterText, parseMeter } from "../../lib/time/index.js";
import { meter, wantedProblem } from "./shorthand.js";

describe("parseMeter()", () => {
  // Beats of simple and compound meters: common practice, no source.
  test.each([
    ["4/4", "simple", [4], fraction(1), fraction(1, 4)],
    ["3/4", "simple", [3], fraction(3, 4), fraction(1, 4)],
    ["2/2", "simple", [2], fraction(1), fraction(1, 2)],
    ["3/8", "simple", [3], fraction(3, 8), fraction(1, 8)],
    ["5/4", "simple", [5], fraction(5, 4), fraction(1, 4)],
    ["6/8", "compound", [3, 3], fraction(3, 4), fraction(3, 8)],
    ["12/8", "compound", [3, 3, 3, 3], fraction(3, 2), fraction(3, 8)],
    ["6/4", "compound", [3, 3], fraction(3, 2), fraction(3, 4)],
    ["3+3/8", "compound", [3, 3], fraction(3, 4), fraction(3, 8)],
    ["7/8", "additive", [2, 2, 3], fraction(7, 8), fraction(1, 8)],
    ["5/8", "additive", [3, 2], fraction(5, 8), fraction(1, 8)],
    ["8/8", "additive", [3, 3, 2], fraction(1), fraction(1, 8)],
    ["10/8", "additive", [3, 3, 2, 2], fraction(5, 4), fraction(1, 8)],
    ["11/8", "additive", [3, 3, 3, 2], fraction(11, 8), fraction(1, 8)],
    ["3 + 2 + 2 / 8", "additive", [3, 2, 2], fraction(7, 8), fraction(1, 8)],
    ["2+3/4", "additive", [2, 3], fraction(5, 4), fraction(1, 4)],
  ])("%s is %s with its groups, bar and beat", (text, kind, groups, bar, beat) => {
    const read = meter(text);
    expect(read).toMatchObject({ kind, groups });
    expect(barLength(read)).toEqual(bar);
    expect(beatOf(read)).toEqual(beat);
  });

  test.each([
    ["4/3", "METER_LOWER_NOT_POWER_OF_TWO"],
    ["4/0", "METER_LOWER_NOT_POWER_OF_TWO"],
    ["4/128", "METER_LOWER_NOT_POWER_OF_TWO"],
    ["0/4", "METER_UPPER_OUT_OF_RANGE"],
    ["65/8", "METER_UPPER_OUT_OF_RANGE"],
    ["2+0+3/8", "METER_UPPER_OUT_OF_RANGE"],
    ["4", "METER_NOT_READ"],
    ["C", "METER_NOT_READ"],
    ["4/4/4", "METER_NOT_READ"],
    ["-4/4", "METER_NOT_READ"],
    ["2++2/4", "METER_NOT_READ"],
  ])("%s is refused as %s", (text, code) => wantedProblem(parseMeter(text), code));

  test("says everything that is wrong at once", () => {
    expect(problemsIn(parseMeter("0/3")).map((p) => p.code)).toEqual([
      "METER_LOWER_NOT_POWER_OF_TWO",
      "METER_UPPER_OUT_OF_RANGE",
    ]);
  });
});

describe("meterText()", () => {
  test.each([
    ["7/8", "2+2+3/8"],
    ["12/8", "12/8"],
    ["3+3/8", "6/8"],
    [" 4 / 4 ", "4/4"],
  ])("of %s is %s", (text, canonical) => expect(meterText(meter(text))).toBe(canonical));
});
