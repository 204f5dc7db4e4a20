import { describe, expect, test } from "vitest";
import { fraction } from "../../lib/base/index.js";
import { parseSwing, secondsAt, secondsOf, swungPosition, wholeNotesIn } from "../../lib/time/index.js";
import { barsOf, swing, wantedProblem } from "./shorthand.js";

describe("swungPosition()", () => {
  const eighths = swing("2:1 1/8 note");

  test("moves the off-beat eighth to two thirds of the beat and leaves the beat alone", () => {
    expect(swungPosition(fraction(1, 8), eighths)).toEqual(fraction(1, 6));
    expect(swungPosition(fraction(1, 4), eighths)).toEqual(fraction(1, 4));
    expect(swungPosition(fraction(3, 8), eighths)).toEqual(fraction(5, 12));
  });

  test("interpolates between: sixteenths share the long and the short eighth evenly", () => {
    expect(swungPosition(fraction(1, 16), eighths)).toEqual(fraction(1, 12));
    expect(swungPosition(fraction(3, 16), eighths)).toEqual(fraction(5, 24));
  });

  test("goes on before bar 1 for a pick-up", () => {
    expect(swungPosition(fraction(-1, 8), eighths, barsOf("4/4"))).toEqual(fraction(-1, 12));
    expect(swungPosition(fraction(-1, 8), eighths)).toEqual(fraction(-1, 12));
  });

  test("counts pairs from each group of 2+2+3/8; the eighth left over stays straight", () => {
    const bars = barsOf("2+2+3/8", "2+2+3/8");
    const at = (eighth: number) => swungPosition(fraction(eighth, 8), eighths, bars);
    expect([1, 3, 5].map(at)).toEqual([fraction(1, 6), fraction(5, 12), fraction(2, 3)]);
    expect([2, 4, 6, 7].map(at)).toEqual([fraction(1, 4), fraction(1, 2), fraction(3, 4), fraction(7, 8)]);
    // The second bar begins a pair of its own, seven eighths on.
    expect(at(8)).toEqual(fraction(25, 24));
    expect(swungPosition(fraction(13, 16), eighths, bars)).toEqual(fraction(13, 16));
  });

  test("swings the sixteenths of 12/8", () => {
    expect(swungPosition(fraction(7, 16), swing("2:1 1/16"), barsOf("12/8"))).toEqual(fraction(11, 24));
  });

  test("is the identity without swing and at 1:1", () => {
    expect(swungPosition(fraction(1, 8), undefined)).toEqual(fraction(1, 8));
    expect(swungPosition(fraction(1, 8), swing("1:1 1/8"))).toEqual(fraction(1, 8));
  });
});

describe("parseSwing()", () => {
  test("takes decimals and shortens ratios", () => {
    expect(swing("3.5:1 1/8")).toEqual({ subdivision: fraction(1, 8), first: 7, second: 2 });
    expect(swing("6:4 1/16 notes")).toMatchObject({ first: 3, second: 2 });
  });
  test.each([
    ["2:1", "SWING_NOT_READ"],
    ["2 1/8", "SWING_NOT_READ"],
    ["2:1 1/3", "SWING_NOT_READ"],
    ["2:1 3/8", "SWING_NOT_READ"],
    ["0:1 1/8", "SWING_RATIO_OUT_OF_RANGE"],
    ["11:1 1/8", "SWING_RATIO_OUT_OF_RANGE"],
    ["1:11 1/8", "SWING_RATIO_OUT_OF_RANGE"],
    ["1.000001:1 1/8", "SWING_RATIO_OUT_OF_RANGE"],
  ])("%s is refused as %s", (text, code) => wantedProblem(parseSwing(text), code));
});

describe("seconds", () => {
  const pace = { tempo: fraction(60), beat: fraction(1, 4) };
  test("the off-beat of 2:1 at 60 falls at two thirds of a second", () => {
    expect(secondsAt(fraction(1, 8), { ...pace, swing: swing("2:1 1/8") })).toBeCloseTo(2 / 3, 12);
  });
  test("secondsOf() and wholeNotesIn() are inverse", () => {
    expect(wholeNotesIn(secondsOf(fraction(7, 8), pace), pace)).toBeCloseTo(7 / 8, 12);
  });
});
