import { describe, expect, test } from "vitest";
import { isTimestamp } from "../../lib/time/index.js";

describe("isTimestamp()", () => {
  // RFC 3339 section 5.8, examples, from memory; the last two are times only without their offset or with a month too many.
  test.each([
    ["1985-04-12T23:20:50.52Z", true],
    ["1996-12-19T16:39:57-08:00", true],
    ["1990-12-31T23:59:60Z", true],
    ["1937-01-01T12:00:27.87+00:20", true],
    ["1985-04-12T23:20:50", false],
    ["1985-13-12T23:20:50Z", false],
  ])("of %s is %s", (text, is) => expect(isTimestamp(text)).toBe(is));
});
