import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { durationText } from "../../lib/time/index.js";
import { isDuration } from "../records/xapiRules.js";

describe("durationText()", () => {
  // ISO 8601: PT4H35M59.14S is 16559.14 s (worked example in the xAPI 1.0.3 specification, read in its text).
  test.each([
    [16559.14, "PT4H35M59.14S"],
    [0, "PT0S"],
    [60, "PT1M"],
    [3600, "PT1H"],
    [67, "PT1M7S"],
    [59.999, "PT1M"],
    [0.1 + 0.2, "PT0.3S"],
  ])("%f s is %s", (seconds, text) => expect(durationText(seconds)).toBe(text));

  test("keeps hundredths, never more, and says what it was given", () => {
    fc.assert(
      fc.property(fc.nat(100_000_000), (hundredths) => {
        const text = durationText(hundredths / 100);
        const [, h = "0", m = "0", s = "0"] = /^PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:\.\d{1,2})?)S)?$/.exec(text)!;
        expect(Math.round(100 * (3600 * Number(h) + 60 * Number(m) + Number(s)))).toBe(hundredths);
        expect(Number(m)).toBeLessThan(60);
        expect(Number(s)).toBeLessThan(60);
      }),
    );
  });

  test("is a duration of ISO 8601 for any number of seconds that it takes", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e13, noNaN: true }), (seconds) => {
        expect(isDuration(durationText(seconds))).toBe(true);
      }),
    );
  });

  test.each([-1, Number.NaN, Number.POSITIVE_INFINITY, 1e15])("throws for %s", (seconds) =>
    expect(() => durationText(seconds)).toThrow(RangeError),
  );
});
