import { describe, expect, test } from "vitest";
import { frequency, midiNumber, parsePitch } from "../../lib/pattern/index.js";
import { must } from "../time/shorthand.js";

describe("frequencies", () => {
  // ISO 16:1975 (A4 = 440 Hz; from memory), f = 440 * 2^((n - 69) / 12), computed to ten digits.
  test.each([
    ["A0", 21, 27.5, 0],
    ["C4", 60, 261.6255653, 5e-8],
    ["A4", 69, 440, 0],
    ["C8", 108, 4186.009045, 5e-7],
  ])("%s, MIDI %d, is %d Hz", (name, number, hertz, halfDigit) => {
    expect(midiNumber(must(parsePitch(name)))).toBe(number);
    expect(Math.abs(frequency(number) - hertz)).toBeLessThanOrEqual(halfDigit);
  });
});
