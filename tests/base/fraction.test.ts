import { describe, expect, test } from "vitest";
import { divide, fraction, multiply, parseFraction, ZERO } from "../../lib/base/index.js";

describe("fraction()", () => {
  test("refuses a divisor of 0, parts and numbers that are not exact", () => {
    expect(() => fraction(1, 0)).toThrow(RangeError);
    expect(() => fraction(0.5)).toThrow(RangeError);
    expect(() => fraction(2 ** 53)).toThrow(RangeError);
    expect(() => fraction(Number.NaN)).toThrow(RangeError);
  });

  test("moves the sign to the upper number and has no negative zero", () => {
    expect(fraction(1, -2)).toEqual({ n: -1, d: 2 });
    expect(Object.is(fraction(0, -5).n, 0)).toBe(true);
  });

  test("arithmetic that leaves the exact range throws instead of rounding", () => {
    const big = fraction(2 ** 52 + 1);
    expect(() => multiply(big, big)).toThrow(RangeError);
    expect(() => divide(big, ZERO)).toThrow(RangeError);
  });
});

describe("parseFraction()", () => {
  test.each([
    ["3", 3, 1],
    ["-1/8", -1, 8],
    ["1 1/2", 3, 2],
    ["6/4", 3, 2],
    [" 2 ", 2, 1],
  ])("reads %j", (text, n, d) => expect(parseFraction(text)).toEqual({ n, d }));

  test.each(["", "1/0", "1/", "/2", "1 2", "0.5", "1e3", "--1", "1/-2", "NaN", "9007199254740993"])(
    "refuses %j",
    (text) => expect(parseFraction(text)).toBeUndefined(),
  );
});
