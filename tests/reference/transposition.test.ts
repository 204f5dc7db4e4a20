import { describe, expect, test } from "vitest";
import {
  compilePattern,
  INSTRUMENTS,
  midiNumber,
  parsePitch,
  pitchClasses,
  pitchText,
  SCALES,
  scaleOf,
  writtenPitch,
} from "../../lib/pattern/index.js";
import { must } from "../time/shorthand.js";
import { SEMITONES_SOUNDING } from "./semitonesSounding.js";

describe("transposing instruments", () => {
  // The guitar by convention, from memory.
  test.each([...SEMITONES_SOUNDING, ["guitar", -12] as const])(
    "%s sounds %d semitones from what is written",
    (name, semitones) => {
      const concert = must(parsePitch("C4"));
      expect(midiNumber(concert) - midiNumber(writtenPitch(concert, INSTRUMENTS[name]!))).toBe(semitones);
    },
  );

  test("spelling follows the interval: concert E4 is F#4 for a B flat trumpet, C#5 for an alto saxophone, B4 for a horn", () => {
    const written = (name: string) => pitchText(writtenPitch(must(parsePitch("E4")), INSTRUMENTS[name]!));
    expect([written("trumpet"), written("alto saxophone"), written("horn")]).toEqual(["F#4", "C#5", "B4"]);
  });
});

describe("a part written for an instrument", () => {
  const notesOf = (part: object) => {
    const document = { meter: "4/4", bars: 1, parts: { lead: part } };
    const pattern = must(compilePattern("riff", document, { instruments: {}, files: () => undefined }));
    return pattern.parts[0]!;
  };

  test.each(SEMITONES_SOUNDING)("%s: its notes sound %d semitones from what is written", (name, semitones) => {
    const { instrument, variants } = notesOf({ "written-for": name, notes: "1/4 F#4 - G4 tie" });
    expect(instrument).toBe(name);
    // F#4 is 66 and G4 is 67 (MIDI).
    expect(variants[""]!.map(({ pitch }) => midiNumber(pitch!))).toEqual([66 + semitones, 67 + semitones]);
  });

  test("the variants of it too; another instrument may sound it", () => {
    const variants = { plain: { notes: "1/1 F#4" }, busy: { notes: "1/2 F#4 C#5" } };
    const part = notesOf({ "written-for": "trumpet", instrument: "flute", variants });
    expect(part.instrument).toBe("flute");
    const names = Object.values(part.variants).map((notes) => notes.map(({ pitch }) => pitchText(pitch!)));
    expect(names).toEqual([["E4"], ["E4", "B4"]]);
  });
});

describe("written ranges", () => {
  // Lowest written notes: music21 10.5.0, instrument.py, as read there.
  test.each([
    ["violin", "G3"],
    ["viola", "C3"],
    ["cello", "C2"],
    ["double bass", "E2"],
    ["flute", "C4"],
    ["piccolo", "D4"],
    ["oboe", "Bb3"],
    ["english horn", "B3"],
    ["clarinet", "E3"],
    ["bass clarinet", "Eb3"],
    ["bassoon", "Bb1"],
    ["soprano saxophone", "Bb3"],
    ["alto saxophone", "Bb3"],
    ["tenor saxophone", "Bb3"],
    ["baritone saxophone", "Bb3"],
    ["horn", "C2"],
    ["trumpet", "F#3"],
    ["trombone", "E2"],
    ["tuba", "D1"],
  ])("the lowest note of a %s is written %s", (name, lowest) =>
    expect(pitchText(INSTRUMENTS[name]!.lowest)).toBe(lowest),
  );

  // Practical upper limits, from memory.
  test.each([
    ["flute", "D7"],
    ["clarinet", "C7"],
    ["trumpet", "D6"],
    ["alto saxophone", "F#6"],
    ["violin", "E7"],
  ])("the highest note of a %s is written %s", (name, highest) =>
    expect(pitchText(INSTRUMENTS[name]!.highest!)).toBe(highest),
  );
});

describe("scales", () => {
  // Pitch-class sets, from memory: theory books agree on them.
  test.each([
    ["major", [0, 2, 4, 5, 7, 9, 11]],
    ["natural minor", [0, 2, 3, 5, 7, 8, 10]],
    ["harmonic minor", [0, 2, 3, 5, 7, 8, 11]],
    ["dorian", [0, 2, 3, 5, 7, 9, 10]],
    ["mixolydian", [0, 2, 4, 5, 7, 9, 10]],
    ["major pentatonic", [0, 2, 4, 7, 9]],
    ["minor pentatonic", [0, 3, 5, 7, 10]],
    ["minor blues", [0, 3, 5, 6, 7, 10]],
    ["major blues", [0, 2, 3, 4, 7, 9]],
    ["octatonic", [0, 2, 3, 5, 6, 8, 9, 11]],
    ["whole tone", [0, 2, 4, 6, 8, 10]],
  ])("%s", (name, steps) => expect(SCALES[name]).toEqual(steps));

  test("the modes are rotations of the major scale: their notes on its degrees are the same", () => {
    const notes = (text: string) => [...pitchClasses(must(scaleOf(text)))].sort((a, b) => a - b);
    for (const mode of ["C ionian", "D dorian", "E phrygian", "F lydian", "G mixolydian", "A aeolian", "B locrian"]) {
      expect(notes(mode)).toEqual(notes("C major"));
    }
  });
});
