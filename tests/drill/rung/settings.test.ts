import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseSettings, type Settings, settingsText } from "../../../lib/drill/index.js";

describe("settingsText()", () => {
  test("writes all settings sorted by name", () => {
    expect(settingsText({ variant: "plain", tempo: "96", dropout: "1/2 bar" })).toBe(
      "dropout=1/2 bar,tempo=96,variant=plain",
    );
  });
});

describe("parseSettings()", () => {
  test.each([
    ["tempo=96.0, dropout = 2/4 bar", "dropout=1/2 bar,tempo=96"],
    ["dropout=0.5 bar", "dropout=1/2 bar"],
    ["dropout=3/2 bars", "dropout=1 1/2 bars"],
    ["tempo=92.50", "tempo=92.5"],
    ["parts=kit+bass+kit", "parts=bass+kit"],
    ["open=4+3", "open=3+4"],
    ["open=none,key=d Dorian", "key=D dorian,open=none"],
    ["", ""],
  ])("brings %j into canonical form", (written, canonical) => {
    const read = parseSettings(written);
    expect(read.ok && settingsText(read.value)).toBe(canonical);
  });

  test("reports every problem, each at its place", () => {
    const read = parseSettings("tempi=96,dropout,tempo=80,tempo=84,open=x,tempo=1=2");
    expect(!read.ok && read.problems.map(({ code, where }) => [code, where.offset])).toEqual([
      ["SETTING_UNKNOWN", 0],
      ["SETTING_NOT_READ", 9],
      ["SETTING_TWICE", 26],
      ["SETTING_NOT_READ", 35],
      ["SETTING_NOT_READ", 42],
    ]);
    expect(!read.ok && read.problems[0]!.remedy).toBe("write tempo");
  });

  test("reads back what settingsText() writes", () => {
    const part = fc.constantFrom("kit", "bass", "horns");
    const settings: fc.Arbitrary<Settings> = fc
      .record(
        {
          tempo: fc.integer({ min: 10, max: 9999 }).map((tenths) => String(tenths / 10)),
          dropout: fc.constantFrom("1/2 bar", "1 bar", "1 1/2 bars", "3 beats", "1/8 note"),
          variant: fc.constantFrom("plain", "busy"),
          key: fc.constantFrom("D dorian", "Bb major"),
          mix: fc.constantFrom("play", "alone"),
          parts: fc.uniqueArray(part, { minLength: 1 }).map((parts) => parts.sort().join("+")),
          open: fc.constantFrom("none", "4", "3+4"),
        },
        { requiredKeys: ["tempo"] },
      )
      .filter(({ tempo }) => Number(tempo) <= 1000);
    fc.assert(
      fc.property(settings, (one) => {
        const read = parseSettings(settingsText(one));
        expect(read.ok && read.value).toEqual(one);
      }),
    );
  });
});
