import { describe, expect, test } from "vitest";
import { fraction } from "../../lib/base/index.js";
import { parseSpan, resolveSpan, spanEnd, spanStart, spanText } from "../../lib/time/index.js";
import { barsOf, meter, span, wantedProblem } from "./shorthand.js";

describe("parseSpan() and resolveSpan()", () => {
  test.each([
    ["1/2 bar", "4/4", fraction(1, 2)],
    ["1/2 bar", "7/8", fraction(7, 16)],
    ["1 1/2 bars", "4/4", fraction(3, 2)],
    ["1.5 bars", "4/4", fraction(3, 2)],
    ["3 beats", "4/4", fraction(3, 4)],
    ["2 beats", "6/8", fraction(3, 4)],
    ["3 beats", "7/8", fraction(3, 8)],
    ["1/8 note", "7/8", fraction(1, 8)],
    ["1 bar", "2+2+3/8", fraction(7, 8)],
  ])("%s of %s", (text, of, length) => expect(resolveSpan(span(text), meter(of))).toEqual(length));

  test.each([
    ["0 bars", "SPAN_NOT_POSITIVE"],
    ["-1 bar", "SPAN_NOT_POSITIVE"],
    ["10001 bars", "SPAN_TOO_LONG"],
    ["2 miles", "SPAN_UNIT_UNKNOWN"],
    ["2", "SPAN_NOT_READ"],
    ["bar", "SPAN_NOT_READ"],
    ["1/0 bar", "SPAN_NOT_READ"],
    ["9007199254740993 bars", "SPAN_NOT_READ"],
    ["1e400 bars", "SPAN_NOT_READ"],
    ["half a bar", "SPAN_NOT_READ"],
  ])("%s is refused as %s", (text, code) => wantedProblem(parseSpan(text), code));
});

describe("spanText()", () => {
  test.each([
    ["0.5 bars", "1/2 bar"],
    ["1 bars", "1 bar"],
    ["2 bar", "2 bars"],
    ["3/2 bars", "1 1/2 bars"],
    ["4/8 note", "1/2 note"],
    ["3 beat", "3 beats"],
    ["1 beats", "1 beat"],
  ])("of %s is %s", (text, canonical) => expect(spanText(span(text))).toBe(canonical));
});

describe("spans over changes of meter", () => {
  const bars = barsOf("4/4", "7/8", "3/4");

  test("one and a half bars before the end of the second bar: all of it and half of the first", () => {
    expect(spanStart(span("1 1/2 bars"), fraction(15, 8), bars)).toEqual(fraction(1, 2));
  });

  test("beats are those of each bar", () => {
    // Two quarters of 4/4, then seven eighths, then one quarter of 3/4.
    expect(spanEnd(span("10 beats"), fraction(1, 2), bars)).toEqual(fraction(17, 8));
  });

  test("after the last bar its meter goes on, before the first the first", () => {
    expect(spanEnd(span("2 bars"), fraction(15, 8), bars)).toEqual(fraction(27, 8));
    expect(spanStart(span("2 bars"), fraction(1), bars)).toEqual(fraction(-1));
  });

  test("note values do not care", () => {
    expect(spanStart(span("1/8 note"), fraction(1), bars)).toEqual(fraction(7, 8));
  });
});

test.each(["constructor by", "1 constructor", "1 valueOf"])(
  "%s: a word that every object knows is no count and no unit",
  (text) => {
    expect(parseSpan(text).ok).toBe(false);
  },
);
