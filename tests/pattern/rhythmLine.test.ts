import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { chordTones } from "../../lib/pattern/chordTones.js";
import { allWorded } from "../words/worded.js";

const course = (rhythm: string, chords = "chords: Dm7 | G7") => `curriculum: quay
edition: 1.0.0
title: Quay
patterns:
  riff:
    meter: 4/4
    bars: 2
    key: D dorian
    ${chords}
    parts:
      kit: { voices: { hat: xxxx | ... } }
      comp: { instrument: electric piano, rhythm: "${rhythm}" }
      lead: { notes: 1/4 D4 E4 F4 G4 | ... }
drills:
  one:
    title: One
    pattern: riff
    student: lead
    tempo: 60
    dropout: { length: 1/4 bar }
    tolerance: { drift: 120 ms }
    gate: { clean: 3, of: 4 }
`;
const read = (rhythm: string, chords?: string) =>
  readCurriculum(course(rhythm, chords), { file: "quay.yaml", readFile: () => undefined });

/** What sounds of the part in the first phrase: seconds and pitches. */
function struck(rhythm: string, chords?: string): readonly string[] {
  const result = read(rhythm, chords);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  const score = scoreOf(rungs(result.value.drills[0]!).at(0));
  const { notes } = score.parts.find(({ name }) => name === "comp")!;
  const times = [...new Set(notes.map(({ at }) => at))].filter((at) => at < 8);
  return times.map(
    (at) =>
      `${at} ${notes
        .filter((note) => note.at === at)
        .map(({ pitch }) => pitch)
        .join(" ")}`,
  );
}

const wrong = (rhythm: string, chords?: string) =>
  allWorded(problemsIn(read(rhythm, chords)))
    .filter(({ severity }) => severity === "error")
    .map(({ code, where, remedy }) => `${code} ${where.line}:${where.column} ${remedy}`);

describe("the rhythm of a part", () => {
  test("strikes the chord that is written where each note begins, in the octave from F3 up", () => {
    // Dm7 is D F A C and G7 is G B D F; what both have stays where it is.
    expect(struck("1/4 - x! 1/2 x | 1/1 x")).toEqual(["1 F3 A3 C4 D4", "2 F3 A3 C4 D4", "4 F3 G3 B3 D4"]);
  });

  test("holds a chord over the bar line by a tie, and repeats bars as lines of notes do", () => {
    expect(struck("3/8 - 5/8 x | 1/1 tie")).toEqual(["1.5 F3 A3 C4 D4"]);
    expect(struck("1/2 x (x) | same")).toEqual(["0 F3 A3 C4 D4", "2 F3 A3 C4 D4", "4 F3 G3 B3 D4", "6 F3 G3 B3 D4"]);
  });

  test("is refused where it has a pitch, or a word that it does not know, at the place of the word", () => {
    expect(wrong("1/4 x x D4 x | ...")).toEqual(["NOTE_NOT_READ 12:60 write x"]);
    expect(wrong("1/4 x x y x | ...")).toEqual(["NOTE_NOT_READ 12:60 write for instance 1/4 x - 1/8 x! x"]);
    expect(wrong("1/4 x x x | ...")[0]).toMatch(/^BAR_TOO_SHORT 12:52 /);
  });

  test("strikes nothing where no chord is: RHYTHM_WITHOUT_CHORD", () => {
    const remedy = "write a chord there (chords: in the pattern), or - in the rhythm";
    expect(wrong("1/1 x | x", "chords: Dm7 | N.C.")).toEqual([`RHYTHM_WITHOUT_CHORD 12:51 ${remedy}`]);
    expect(wrong("1/1 x | -", "about: none").filter((each) => each.startsWith("RHYTHM"))).toHaveLength(1);
    // Chords that cannot be read are said, and not missed.
    expect(wrong("1/1 x | x", "chords: Hm7 | G7").map((each) => each.split(" ")[0])).toEqual(["CHORD_NOT_READ"]);
  });
});

describe("a rhythm without quotes", () => {
  test("that YAML takes for a list is told to be put in quotes", () => {
    const text = course("1/1 x | x").replace(/rhythm: .* }/, "rhythm: - x | x }");
    const result = readCurriculum(text, { file: "quay.yaml", readFile: () => undefined });
    expect(problemsIn(result).map(({ code }) => code)).toEqual(["LINE_NEEDS_QUOTES"]);
  });
});

describe("chordTones()", () => {
  // Semitones above the root, as harmony textbooks spell these chords (from memory).
  test.each([
    ["", [0, 4, 7]],
    ["m", [0, 3, 7]],
    ["-7", [0, 3, 7, 10]],
    ["7", [0, 4, 7, 10]],
    ["maj7", [0, 4, 7, 11]],
    ["Δ", [0, 4, 7]],
    ["mM7", [0, 3, 7, 11]],
    ["m(maj7)", [0, 3, 7, 11]],
    ["dim", [0, 3, 6]],
    ["dim7", [0, 3, 6, 9]],
    ["ø", [0, 3, 6, 10]],
    ["m7b5", [0, 3, 6, 10]],
    ["aug", [0, 4, 8]],
    ["+7", [0, 4, 8, 10]],
    ["6", [0, 4, 7, 9]],
    ["m6", [0, 3, 7, 9]],
    ["6/9", [4, 7, 9, 14]],
    ["69", [4, 7, 9, 14]],
    ["9", [4, 7, 10, 14]],
    ["m9", [3, 7, 10, 14]],
    ["maj9", [4, 7, 11, 14]],
    ["13", [4, 10, 14, 21]],
    ["m11", [3, 10, 14, 17]],
    ["11", [7, 10, 14, 17]],
    ["7b9", [4, 7, 10, 13]],
    ["7#9", [4, 7, 10, 15]],
    ["7#11", [4, 7, 10, 18]],
    ["7alt", [4, 8, 10, 15]],
    ["sus4", [0, 5, 7]],
    ["sus2", [0, 2, 7]],
    ["7sus4", [0, 5, 7, 10]],
    ["5", [0, 7]],
    ["add9", [0, 4, 7, 14]],
    ["7no5", [0, 4, 10]],
    ["m♭6?", [0, 3, 7]],
  ])("%s", (quality, semitones) => {
    expect(
      chordTones(quality)
        .map(({ chromatic }) => chromatic)
        .sort((a, b) => a - b),
    ).toEqual(semitones);
  });
});
