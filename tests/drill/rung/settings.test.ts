import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { PARAMETERS, parseSettings, type Settings, settingsText } from "../../../lib/drill/index.js";
import { openBarsOf, openText } from "../../../lib/drill/rung/settings.js";

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

  const problemsOf = (text: string) => {
    const read = parseSettings(text);
    return read.ok ? [] : read.problems.map(({ code, message, remedy }) => [code, message, remedy]);
  };

  test("knows eight parameters, and reads each with blanks around its name and its value", () => {
    const one = {
      dropout: "1 bar",
      key: "D dorian",
      mix: "play",
      open: "3",
      parts: "kit",
      rise: "4 each 2 phrases",
      tempo: "96",
      variant: "busy",
    };
    expect(PARAMETERS).toEqual(Object.keys(one));
    const read = parseSettings(
      ` ${Object.entries(one)
        .map(([name, value]) => ` ${name} =  ${value} `)
        .join(",")} `,
    );
    expect(read.ok && read.value).toEqual(one);
  });

  test("has no settings in a text of blanks, and a problem in an empty piece", () => {
    const blank = parseSettings("  ");
    expect(blank.ok && blank.value).toEqual({});
    expect(problemsOf("tempo=96,")).toEqual([
      ["SETTING_NOT_READ", 'a setting is written name=value, such as tempo=96; found ""', undefined],
    ]);
  });

  test.each([
    ["tempo=1/4=96", ["SETTING_NOT_READ", 'a setting is written name=value, such as tempo=96; found "tempo=1/4=96"']],
    [
      "weather=fine",
      ["SETTING_UNKNOWN", 'the settings are dropout, key, mix, open, parts, rise, tempo, variant; found "weather"'],
    ],
    [
      "tempo=3/8 note = 60",
      ["SETTING_NOT_READ", 'a setting is written name=value, such as tempo=96; found "tempo=3/8 note = 60"'],
    ],
    [
      "tempo=60 of 3/8",
      ["SETTING_NOT_READ", 'the tempo of a setting is a number alone, such as tempo=96; found "60 of 3/8"'],
    ],
    ["mix=", ["SETTING_NOT_READ", 'a mix has a name; found ""']],
    ["variant= ", ["SETTING_NOT_READ", 'a variant has a name; found ""']],
    [
      "open=3+x",
      ["SETTING_NOT_READ", 'open bars are bar numbers joined by +, such as open=3+4, or open=none; found "3+x"'],
    ],
  ])("says of %j what is wrong", (text, [code, message]) => {
    expect(problemsOf(text)).toEqual([[code, message, undefined]]);
  });

  test("takes bars from 1 to six digits as open, with blanks, each once and ascending as numbers, and nothing else", () => {
    for (const [text, canonical] of [
      ["open= 10 + 9+9", "9+10"],
      ["open=999999", "999999"],
      ["open=1", "1"],
    ] as const) {
      const read = parseSettings(text);
      expect(read.ok && read.value.open).toBe(canonical);
    }
    for (const text of ["open=0", "open=03", "open=1000000", "open=3 4", "open=3+", "open=a3", "open=None", "open="])
      expect(problemsOf(text).map(([code]) => code)).toEqual(["SETTING_NOT_READ"]);
  });

  test("quotes 40 signs whole, and of more the first 40", () => {
    const found = (text: string) => /found (.*)$/.exec(String(problemsOf(text)[0]![1]))![1];
    expect(found("x".repeat(40))).toBe(`"${"x".repeat(40)}"`);
    expect(found("x".repeat(41))).toBe(`"${"x".repeat(40)}..."`);
  });

  test("places the problems of a value, too, at the piece that has it", () => {
    const read = parseSettings("mix=play,tempo=fast,key=H,dropout=long");
    expect(!read.ok && read.problems.map(({ where }) => where.offset)).toEqual([9, 20, 26]);
  });

  test("means a name with blanks around it by the nearest parameter", () => {
    expect(problemsOf("      tempi      =96")[0]![2]).toBe("write tempo");
  });
});

describe("openText() and openBarsOf()", () => {
  test("write bars and read them back, and know none", () => {
    for (const [bars, text] of [
      [[], "none"],
      [[3], "3"],
      [[3, 4, 12], "3+4+12"],
    ] as const) {
      expect(openText(bars)).toBe(text);
      expect(openBarsOf({ open: text })).toEqual(bars);
    }
    expect(openBarsOf({})).toEqual([]);
  });
});
