import { describe, expect, test } from "vitest";
import { familyOfInstrument } from "../../lib/listen/index.js";
import {
  INSTRUMENTS,
  instrumentNamed,
  intervalText,
  KNOWN_INSTRUMENTS,
  midiNumber,
  unknownInstrument,
} from "../../lib/pattern/index.js";

const NAMES = Object.entries(KNOWN_INSTRUMENTS).flatMap(([name, { otherNames }]) => [name, ...otherNames]);

describe("the table of instruments", () => {
  test("has every name once", () => {
    expect(NAMES.length).toBeGreaterThan(250);
    const plain = NAMES.map((name) => name.toLowerCase());
    expect(plain.filter((name, i) => plain.indexOf(name) !== i)).toEqual([]);
  });

  test.each(Object.entries(KNOWN_INSTRUMENTS))("%s: a beginner's range lies in the whole one", (_, known) => {
    const { lowest, highest } = known.instrument;
    const notes = [lowest, known.beginners.lowest, known.beginners.highest, highest!].map(midiNumber);
    expect(notes).toEqual([...notes].sort((a, b) => a - b));
    expect(notes[3]! - notes[0]!).toBeGreaterThanOrEqual(12);
    expect(known.program).toBeGreaterThanOrEqual(1);
    expect(known.program).toBeLessThanOrEqual(128);
  });

  test("is known by how its notes begin, so that each can be listened to", () => {
    expect(Object.keys(INSTRUMENTS).filter((name) => familyOfInstrument(name) === undefined)).toEqual([]);
  });
});

describe("a name that an instrument has beside its own", () => {
  // Common practice, no source: how players name the instruments and their transpositions.
  test.each([
    ["alto sax", "alto saxophone", "major sixth lower"],
    ["Tenor Sax", "tenor saxophone", "octave and a major second lower"],
    ["bari sax", "baritone saxophone", "octave and a major sixth lower"],
    ["bass sax", "bass saxophone", "two octaves and a major second lower"],
    ["sopranino saxophone", "sopranino saxophone", "minor third higher"],
    ["recorder", "soprano recorder", "octave higher"],
    ["recorders", "soprano recorder", "octave higher"],
    ["descant recorder", "soprano recorder", "octave higher"],
    ["treble recorder", "alto recorder", "as written"],
    ["French horn", "horn", "perfect fifth lower"],
    ["horn in F", "horn", "perfect fifth lower"],
    ["cor anglais", "english horn", "perfect fifth lower"],
    ["tenor horn", "Eb horn", "major sixth lower"],
    ["alto horn", "Eb horn", "major sixth lower"],
    ["baritone horn", "baritone horn", "as written"],
    ["alto flute", "alto flute", "perfect fourth lower"],
    ["Eb clarinet", "Eb clarinet", "minor third higher"],
    ["E flat clarinet", "Eb clarinet", "minor third higher"],
    ["E♭ clarinet", "Eb clarinet", "minor third higher"],
    ["clarinet in Bb", "clarinet", "major second lower"],
    ["B-flat clarinet", "clarinet", "major second lower"],
    ["marimba", "marimba", "as written"],
    ["voice", "voice", "as written"],
    ["electric guitar", "electric guitar", "octave lower"],
    ["accordion", "accordion", "as written"],
    ["bass guitar", "electric bass", "octave lower"],
    ["upright bass", "double bass", "octave lower"],
    ["piccolo trumpet", "piccolo trumpet", "minor seventh higher"],
    ["ukulele", "ukulele", "as written"],
    ["steel pan", "steel drum", "as written"],
    ["vibes", "vibraphone", "as written"],
    ["euphonium", "euphonium", "as written"],
  ])("%s is the %s, which sounds %s", (written, name, sounds) => {
    const found = instrumentNamed(written, {});
    expect(found?.name).toBe(name);
    expect(intervalText(found!.transposition)).toBe(sounds);
  });

  test("gives way to an instrument of the course", () => {
    const own = { ...INSTRUMENTS.trumpet!, name: "fiddle" };
    expect(instrumentNamed("fiddle", { fiddle: own })).toBe(own);
  });
});

describe("a name that no instrument has", () => {
  test.each([
    ["trumpett", "write trumpet"],
    ["alto saxofone", "write alto saxophone"],
    ["tenorsaxophone", "write tenor saxophone"],
    ["clarinette", "write clarinet"],
    ["bass", "write double bass, electric bass, five-string bass, six-string bass or fretless bass"],
    ["upright", "write double bass or piano"],
    ["acoustic", "write double bass or acoustic guitar"],
    [
      "sax",
      "write sopranino saxophone, soprano saxophone, alto saxophone, tenor saxophone, baritone saxophone or bass saxophone",
    ],
  ])("%s: %s", (name, remedy) => {
    expect(unknownInstrument(name, {}).remedy).toBe(remedy);
  });

  test.each(["Db clarinet", "Gb clarinet", "alto trumpet", "sopranissimo saxophone", "tenor trumpet", "Ab clarinet"])(
    "%s is never answered with an instrument of another transposition or family",
    (name) => expect(unknownInstrument(name, {}).remedy).toBe("describe it under instruments"),
  );

  test("is answered with one transposition and family only, or with the names of what the word is part of", () => {
    // Every size and key before every kind: what is no instrument must not become another one.
    const words = "sopranino soprano alto tenor baritone bass contrabass piccolo Eb Bb Db A F G low treble".split(" ");
    const kinds = [...new Set(NAMES.map((name) => name.split(" ").at(-1)!))];
    const made = words.flatMap((word) => kinds.map((kind) => `${word} ${kind}`));
    const strange = made.filter((name) => instrumentNamed(name, {}) === undefined);
    expect(strange.length).toBeGreaterThan(1000);
    const answered = strange.filter((name) => unknownInstrument(name, {}).remedy !== "describe it under instruments");
    expect(answered.filter((name) => !NAMES.some((known) => sameLetters(known, name)))).toEqual([]);
  });
});

test("an electric bass plays to its twentieth fret: the G string and a minor thirteenth, sounding Eb4 (common practice, no source)", () => {
  const { highest, transposition } = INSTRUMENTS["electric bass"]!;
  expect(midiNumber(highest!) + transposition.chromatic).toBe(43 + 20);
});

function sameLetters(a: string, b: string): boolean {
  const letters = (text: string): string =>
    text
      .toLowerCase()
      .replaceAll(/[^a-z0-9]/g, "")
      .replace(/s$/, "");
  return letters(a) === letters(b);
}
