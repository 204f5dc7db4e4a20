import { describe, expect, test } from "vitest";
import { plain } from "../../../lib/cli/output/printableText.js";

describe("plain()", () => {
  test.each([
    0x00, 0x07, 0x0a, 0x1b, 0x7f, 0x9b, 0xad, 0x61c, 0x180e, 0x200b, 0x200e, 0x2028, 0x202e, 0x2060, 0x2069, 0xfeff,
    0xd800, 0xe0041,
  ])("masks the character %i, which controls or cannot be seen", (code) => {
    expect(plain(`a${String.fromCodePoint(code)}b`)).toBe("a·b");
  });

  test("leaves what can be seen", () => {
    expect(plain("Zoë = 100 % 🐦 مرحبا 鴎")).toBe("Zoë = 100 % 🐦 مرحبا 鴎");
  });
});
