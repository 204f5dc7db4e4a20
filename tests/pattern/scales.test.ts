import { describe, expect, test } from "vitest";
import { parseOwnScale, SCALES, scaleOf } from "../../lib/pattern/index.js";

const rotated = (steps: readonly number[], degree: number): readonly number[] =>
  [...steps.slice(degree - 1), ...steps.slice(0, degree - 1).map((step) => step + 12)].map(
    (step) => step - steps[degree - 1]!,
  );

describe("the table of scales", () => {
  test("has 60 and more scales, each with its steps upwards within an octave", () => {
    expect(new Set(Object.values(SCALES).map((steps) => steps.join(" "))).size).toBeGreaterThanOrEqual(60);
    for (const [name, steps] of Object.entries(SCALES)) {
      expect(steps[0], name).toBe(0);
      expect(steps, name).toEqual([...new Set(steps)].sort((a, b) => a - b));
      expect(steps.at(-1)!, name).toBeLessThan(12);
    }
  });

  // Which degree of which scale each mode begins on: common practice, no source.
  test.each([
    ["melodic minor", 2, "dorian flat two"],
    ["melodic minor", 3, "lydian augmented"],
    ["melodic minor", 4, "lydian dominant"],
    ["melodic minor", 5, "mixolydian flat six"],
    ["melodic minor", 6, "half diminished"],
    ["melodic minor", 7, "altered"],
    ["harmonic minor", 2, "locrian natural six"],
    ["harmonic minor", 3, "ionian augmented"],
    ["harmonic minor", 4, "dorian sharp four"],
    ["harmonic minor", 5, "phrygian dominant"],
    ["harmonic minor", 6, "lydian sharp two"],
    ["harmonic minor", 7, "altered diminished"],
    ["harmonic major", 2, "dorian flat five"],
    ["harmonic major", 3, "phrygian flat four"],
    ["harmonic major", 4, "lydian minor"],
    ["harmonic major", 5, "mixolydian flat two"],
    ["harmonic major", 6, "lydian augmented sharp two"],
    ["harmonic major", 7, "locrian double flat seven"],
    ["double harmonic", 4, "hungarian minor"],
    ["octatonic", 2, "half whole diminished"],
    ["major pentatonic", 2, "suspended pentatonic"],
    ["major pentatonic", 3, "blues minor pentatonic"],
    ["major pentatonic", 4, "blues major pentatonic"],
    ["major pentatonic", 5, "minor pentatonic"],
    ["hirajoshi", 2, "iwato"],
    ["major blues", 6, "minor blues"],
  ])("the mode of the %s scale on degree %d is %s", (scale, degree, mode) =>
    expect(rotated(SCALES[scale]!, degree)).toEqual(SCALES[mode]),
  );

  // Notes beside the chord scale, common practice: a bebop scale adds one passing note.
  test.each([
    ["bebop dominant", "mixolydian", 11],
    ["bebop major", "major", 8],
    ["bebop dorian", "dorian", 4],
  ])("%s is %s with one more note", (bebop, scale, more) =>
    expect(SCALES[bebop]).toEqual([...SCALES[scale]!, more].sort((a, b) => a - b)),
  );

  test.each([["super locrian"], ["diminished"], ["jazz minor"], ["overtone"], ["whole-half diminished"]])(
    "%s is another name of a scale",
    (name) => expect(scaleOf(`D ${name}`).ok).toBe(true),
  );
});

describe("a scale as musicians say it is answered with its tonic and its name", () => {
  test.each([
    ["G blues minor scale", "G blues minor"],
    ["Gm blues", "G minor blues"],
    ["blues in G", "G blues"],
    ["a blues scale in A", "A blues"],
    ["blues scale in G minor", "G blues minor"],
    ["B flat blues", "Bb blues"],
    ["F# min pentatonic", "F# minor pentatonic"],
    ["G minor dorian", "G dorian"],
    ["E phrygian mode", "E phrygian"],
    ["harbour in D", "D harbour"],
    // German names of notes: B is Bb, H is B.
    ["B-Dur", "Bb major"],
    ["b-Moll", "Bb minor"],
    ["H-Dur", "B major"],
    ["h-Moll", "B minor"],
    ["Es-Dur", "Eb major"],
    ["As Dur", "Ab major"],
    ["fis-Moll", "F# minor"],
    ["des-Dur", "Db major"],
    ["A-Dur", "A major"],
    ["H minor blues", "B minor blues"],
  ])("%s: %s", (written, meant) => {
    const own = { harbour: [0, 2, 3, 6, 7, 10] };
    expect(scaleOf(written, own)).toMatchObject({ ok: false, problems: [{ remedy: `write ${meant}` }] });
    expect(scaleOf(meant, own).ok).toBe(true);
  });
});

describe("a scale of the course", () => {
  test("is written as its notes from any tonic", () => {
    expect(parseOwnScale("D E F G# A C")).toEqual({ ok: true, value: [0, 2, 3, 6, 7, 10], advice: [] });
    expect(parseOwnScale("Bb C Db")).toMatchObject({ value: [0, 2, 3] });
  });

  test.each(["", "D", "D E D", "D E F D E", "D H", "0 2 4", "D5 E5"])("%j is no scale", (text) =>
    expect(parseOwnScale(text)).toMatchObject({ ok: false, problems: [{ code: "SCALE_NOT_READ" }] }),
  );
});
