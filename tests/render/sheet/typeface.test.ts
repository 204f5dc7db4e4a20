import { describe, expect, test } from "vitest";
import { openTypeface, type Typeface } from "../../../lib/render/sheet/typeface.js";
import { FONTS } from "./material.js";

describe("openTypeface()", () => {
  const opened = openTypeface(FONTS);
  const type = (opened as { value: Typeface }).value;

  test("lines() loses no letters and keeps to the width", () => {
    const text =
      "The band leaves on the third beat of every fourth bar.\n\nSing the bass line incomprehensibilities in your head.";
    for (const width of [40, 90, 200, 1000]) {
      const lines = type.lines(text, { face: "italic", size: 10, width });
      expect(lines.join("").replace(/\s/g, "")).toBe(text.replace(/\s/g, ""));
      for (const line of lines) expect(type.width(line, "italic", 10)).toBeLessThanOrEqual(width);
    }
    expect(type.lines("", { face: "regular", size: 10, width: 100 })).toEqual([]);
  });

  test("line() sets flats in the face that has them, one run after another", () => {
    const runs = type.line("In B♭ major", { x: 10, y: 0, face: "bold", size: 10, ink: "#000" });
    expect(runs.map(({ text, face }) => [text, face])).toEqual([
      ["In B", "bold"],
      ["♭", "regular"],
      [" major", "bold"],
    ]);
    expect(runs[2]!.x).toBeCloseTo(10 + type.width("In B♭", "bold", 10), 9);
  });

  test("letters that no face has are those of the other font, where one is given, and come as outlines", () => {
    // Faces without a flat, and a font that has it: it stands for one of Japanese.
    const without = { regular: FONTS.italic, italic: FONTS.italic, bold: FONTS.bold };
    const [bare, whole] = [without, { ...without, other: FONTS.regular }].map(openTypeface) as { value: Typeface }[];
    expect(bare!.value.missing("B♭ 岸")).toEqual(["♭", "岸"]);
    expect(whole!.value.missing("B♭ 岸")).toEqual(["岸"]);
    const runs = whole!.value.line("B♭ major", { x: 0, y: 0, face: "bold", size: 10, ink: "#000" });
    expect(runs.map(({ text, face }) => [text, face])).toEqual([
      ["B", "bold"],
      ["♭", "other"],
      [" major", "bold"],
    ]);
    expect(whole!.value.outlines(runs[1]!).map(({ kind }) => kind)).toEqual(["path"]);
    expect(openTypeface({ ...FONTS, other: new Uint8Array(9) })).toMatchObject({
      problems: [{ code: "FONT_NOT_READ" }],
    });
  });

  test("missing() names letters that no face has", () => {
    expect(type.missing("Seebrücke Łódź Ωδή Набережная ♩ = 96 ½ 岸")).toEqual(["岸"]);
  });
});
