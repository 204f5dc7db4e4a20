import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import {
  intervalBetween,
  intervalText,
  keySignature,
  midiNumber,
  parseInterval,
  parsePitch,
  pitchClasses,
  pitchText,
  scaleOf,
  spelledIn,
  transposePitch,
} from "../../lib/pattern/index.js";
import { must, wantedProblem } from "../time/shorthand.js";
import { key, pitch } from "./shorthand.js";

describe("parsePitch()", () => {
  test.each([
    ["C4", 60, "C4"],
    ["Bb3", 58, "Bb3"],
    ["B♭3", 58, "Bb3"],
    ["F##5", 79, "F##5"],
    ["cb4", 59, "Cb4"],
    ["b4", 71, "B4"],
    ["C-1", 0, "C-1"],
    ["G9", 127, "G9"],
  ])("%s is MIDI %d", (text, number, canonical) => {
    expect(midiNumber(pitch(text))).toBe(number);
    expect(pitchText(pitch(text))).toBe(canonical);
  });
  test.each([
    ["H4", "PITCH_NOT_READ"],
    ["D", "PITCH_NOT_READ"],
    ["D#b4", "PITCH_NOT_READ"],
    ["D###4", "PITCH_NOT_READ"],
    ["G#9", "PITCH_OUT_OF_RANGE"],
    ["Cb-1", "PITCH_OUT_OF_RANGE"],
  ])("%s is refused as %s", (text, code) => wantedProblem(parsePitch(text), code));
});

describe("transposePitch()", () => {
  // tonal 6.4.3, as run there.
  test.each([
    ["Bb4", "major sixth higher", "G5"],
    ["Cb4", "major second higher", "Db4"],
  ])("%s a %s is %s", (from, by, to) =>
    expect(pitchText(transposePitch(pitch(from), must(parseInterval(by))))).toBe(to),
  );

  test("never needs three accidentals: G##4 up a major seventh is G#5, not F###5", () => {
    expect(pitchText(transposePitch(pitch("G##4"), must(parseInterval("major seventh higher"))))).toBe("G#5");
    expect(pitchText(transposePitch(pitch("Fbb4"), must(parseInterval("major seventh lower"))))).toBe("Fb3");
  });
});

describe("parseInterval()", () => {
  // Steps and semitones of the intervals: common knowledge of music theory, no single source.
  const INTERVALS: readonly (readonly [string, number, number])[] = [
    ["major second higher", 1, 2],
    ["major second lower", -1, -2],
    ["perfect fifth lower", -4, -7],
    ["octave higher", 7, 12],
    ["octave and a major second lower", -8, -14],
    ["octave and a major sixth lower", -12, -21],
    ["two octaves lower", -14, -24],
    ["two octaves and a minor third higher", 16, 27],
    ["minor third higher", 2, 3],
    ["augmented fourth higher", 3, 6],
    ["diminished fifth higher", 4, 6],
    ["octave and an augmented fourth higher", 10, 18],
    ["as written", 0, 0],
  ];
  test.each(INTERVALS)("%s is %d steps and %d semitones, and said so", (text, diatonic, chromatic) => {
    expect(must(parseInterval(text))).toEqual({ diatonic, chromatic });
    expect(intervalText({ diatonic, chromatic })).toBe(text);
  });

  test.each(["a major second lower", "an  Octave and major second lower", " Major Second Lower "])(
    "takes %j: articles, blanks and capitals are free",
    (text) => expect(parseInterval(text).ok).toBe(true),
  );

  test.each([
    "perfect third lower",
    "major fifth higher",
    "minor unison lower",
    "major second",
    "lower",
    "second lower",
    "major lower",
    "four octaves lower",
    "octave and lower",
    "M0",
    "P3",
    "P99",
    "2",
    "up",
    "constructor second lower",
    "",
  ])("%j is refused", (text) => wantedProblem(parseInterval(text), "INTERVAL_NOT_READ"));

  test.each([
    ["-M2", "major second lower"],
    ["P1", "as written"],
    ["-P8", "octave lower"],
    ["-M9", "octave and a major second lower"],
    ["-M13", "octave and a major sixth lower"],
    ["A4", "augmented fourth higher"],
    ["-m10", "octave and a minor third lower"],
    ["P22", "three octaves higher"],
  ])("answers the former spelling %s with %s, which says the same", (former, words) => {
    wantedProblem(parseInterval(former), "FORMER_SPELLING");
    expect(problemsIn(parseInterval(former))[0]!.remedy).toBe(`write: ${words}`);
    expect(parseInterval(words).ok).toBe(true);
  });
});

describe("keys", () => {
  test.each([
    ["C major", 0],
    ["D dorian", 0],
    ["Bb major", -2],
    ["F# minor", 3],
    ["E phrygian", 0],
    ["F lydian", 0],
    ["G mixolydian", 0],
    ["B locrian", 0],
    ["A minor pentatonic", 0],
    ["Cb major", -7],
    ["Eb", -3],
  ])("the signature of %s is %d", (text, fifths) => expect(keySignature(key(text))).toBe(fifths));

  test.each([
    ["D dorian", "G dorian", 3, 5],
    ["D major", "C major", -1, -2],
    ["C major", "B major", -1, -1],
    ["C major", "Cb major", 0, -1],
    ["C major", "F# major", 3, 6],
    ["F# major", "C major", -3, -6],
    ["C major", "Gb major", -3, -6],
    ["Gb major", "C major", 3, 6],
    ["C major", "C# major", 0, 1],
    ["Db major", "C# major", -1, 0],
  ])("from %s to %s is %d steps and %d semitones", (from, to, diatonic, chromatic) => {
    expect(intervalBetween(key(from).tonic, key(to).tonic)).toEqual({ diatonic, chromatic });
  });

  // Raised 1, 4 and 5, lowered 3 and 7: common practice, no source.
  test.each([
    ["C major", "C C# D Eb E F F# G G# A Bb B"],
    ["Eb major", "C Db D Eb E F Gb G Ab A Bb B"],
    ["A major", "C C# D D# E E# F# G G# A A# B"],
  ])("spelledIn() spells %s as musicians do", (name, wanted) => {
    const spelled = Array.from({ length: 12 }, (_, i) => pitchText(spelledIn(key(name), 60 + i)).replace(/-?\d+$/, ""));
    expect(spelled).toEqual(wanted.split(" "));
  });

  test("a scale of its own may be added", () => {
    const own = { "tide scale": [0, 1, 5, 7] };
    expect(pitchClasses(must(scaleOf("D tide scale", own)))).toEqual([2, 3, 7, 9]);
    wantedProblem(scaleOf("D tide scale"), "SCALE_UNKNOWN");
  });

  test("a misspelt mode is named, and nothing is found in the prototype", () => {
    const result = scaleOf("D dorain");
    expect(result.ok ? undefined : result.problems[0]?.remedy).toBe("write D dorian");
    wantedProblem(scaleOf("D constructor"), "SCALE_UNKNOWN");
    wantedProblem(scaleOf("dorian"), "KEY_NOT_READ");
  });
});
