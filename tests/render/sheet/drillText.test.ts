import { describe, expect, test } from "vitest";
import { fraction } from "../../../lib/base/index.js";
import { beatSign, gateLine, lengthText, swingText, withSigns } from "../../../lib/render/sheet/drillText.js";

describe("text of a drill on paper", () => {
  test("lengthText() prints lengths as musicians write them", () => {
    const printed = [
      "1/2 bar",
      "1 1/2 bars",
      "2 bars",
      "3/8 note",
      "3 beats",
      "5/4 note",
      "2/1 note",
      "1/1 note",
      "5/16 note",
    ].map(lengthText);
    expect(printed).toEqual([
      "½ bar",
      "1½ bars",
      "2 bars",
      "⅜ note",
      "3 beats",
      "1¼ whole notes",
      "2 whole notes",
      "1 whole note",
      "5/16 note",
    ]);
  });

  test("withSigns() sets flats and sharps of keys and chords, and leaves words alone", () => {
    expect(
      ["Bb mixolydian", "F#m7b5", "Ab7/Gb", "C7#9", "Ebb major", "major blues", "D dorian"].map(withSigns),
    ).toEqual(["B♭ mixolydian", "F♯m7♭5", "A♭7/G♭", "C7♯9", "E♭♭ major", "major blues", "D dorian"]);
  });

  test("beatSign() has a sign or a name for every beat unit", () => {
    const units = [
      [1, 4],
      [3, 8],
      [1, 8],
      [1, 2],
      [3, 4],
      [1, 16],
      [1, 1],
      [1, 32],
    ] as const;
    expect(units.map(([n, d]) => beatSign(fraction(n, d)))).toEqual([
      "♩",
      "♩.",
      "♪",
      "half note",
      "dotted half note",
      "sixteenth",
      "whole note",
      "1/32 note",
    ]);
  });

  test("swingText() is empty where nothing swings", () => {
    expect(swingText({ first: 2, second: 1, subdivision: fraction(1, 8) })).toBe("swing 2 : 1");
    expect(swingText({ first: 3, second: 2, subdivision: fraction(1, 16) })).toBe("swing 3 : 2 (sixteenths)");
    expect(swingText({ first: 1, second: 1, subdivision: fraction(1, 8) })).toBe("");
  });

  test("gateLine() says each gate in plain words", () => {
    expect(gateLine({ kind: "clean of last", clean: 3, of: 4 })).toBe("3 of your last 4 takes on a rung are clean.");
    expect(gateLine({ kind: "clean of last", clean: 3, of: 3 })).toBe("3 takes in a row on a rung are clean.");
    expect(gateLine({ kind: "in a row", count: 1 })).toBe("one take on a rung is clean.");
    expect(gateLine({ kind: "sequential", able: 0.85, unready: 0.5, wronglyLetOn: 0.1, wronglyHeld: 0.1 })).toContain(
      "85\u00a0%",
    );
  });
});
