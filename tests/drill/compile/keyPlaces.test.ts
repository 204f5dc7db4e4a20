import { describe, expect, test } from "vitest";
import { findRung, rungs, scoreOf } from "../../../lib/drill/index.js";
import { must } from "../../time/shorthand.js";
import { drillOf, found, jetty } from "../material.js";

// The riff begins on D4 in D dorian, the bass on D2.
const firstPitches = (key: string): readonly (string | undefined)[] => {
  const score = scoreOf(rungs(drillOf(jetty({ key }))).at(0), "listen");
  return [score.expected[0]!.pitch, score.parts.find(({ name }) => name === "bass")!.notes[0]!.pitch];
};

describe("the octave of a key", () => {
  test.each([
    ["A dorian", "A3", "A1"],
    ["A dorian octave higher", "A4", "A2"],
    ["G dorian", "G4", "G2"],
    ["G dorian octave lower", "G3", "G1"],
    ["D dorian octave higher", "D5", "D3"],
  ])("%s begins on %s", (key, lead, bass) => {
    expect(firstPitches(key)).toEqual([lead, bass]);
  });

  test("a ladder has both, as two rungs that are found by their texts", () => {
    const drill = drillOf(jetty({ ladders: [{ key: ["D dorian", "A dorian", "A dorian an octave higher"] }] }));
    expect(rungs(drill).at(2).settings.key).toBe("A dorian octave higher");
    expect(must(findRung(drill, "key=A dorian octave higher")).index).toBe(2);
    expect(scoreOf(rungs(drill).at(2)).key).toBe("A dorian");
    expect(found(jetty({ ladders: [{ key: ["A dorian octave higher", "A dorian an octave higher"] }] }))).toContain(
      "LADDER_REPEATS_A_VALUE /ladders/0/key/1",
    );
  });

  test("is counted where ranges are checked, and two octaves are not read", () => {
    const players = ["trumpet"];
    expect(found(jetty({ key: "A dorian", players }))).toEqual([]);
    expect(found(jetty({ key: "C dorian octave higher", players })).join()).toContain("WRITTEN_ABOVE_RANGE");
    expect(found(jetty({ key: "A dorian two octaves higher" }))).not.toEqual([]);
  });
});
