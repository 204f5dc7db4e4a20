import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  intervalBetween,
  keySignature,
  keyText,
  midiNumber,
  opposite,
  type Pitch,
  parseKey,
  parsePitch,
  pitchText,
  SCALES,
  scaleOf,
  scaleText,
  spelledIn,
  transposePattern,
  transposePitch,
} from "../../lib/pattern/index.js";
import { must } from "../time/shorthand.js";
import { compiled, key, noteTexts } from "./shorthand.js";

const letters = fc.constantFrom("C", "D", "E", "F", "G", "A", "B");
const pitches: fc.Arbitrary<Pitch> = fc.record({
  letter: letters as fc.Arbitrary<Pitch["letter"]>,
  alter: fc.integer({ min: -2, max: 2 }),
  octave: fc.integer({ min: 1, max: 7 }),
});
const tonics = fc.tuple(letters, fc.constantFrom("", "b", "#")).map(([letter, sign]) => letter + sign);
const keys = fc
  .tuple(tonics, fc.constantFrom(...Object.keys(SCALES)))
  .map(([tonic, mode]) => must(parseKey(`${tonic} ${mode}`)));

describe("parse and print are inverse", () => {
  test("for pitches", () => {
    fc.assert(
      fc.property(pitches, (pitch) => {
        expect(must(parsePitch(pitchText(pitch)))).toEqual(pitch);
      }),
    );
  });
  test("for keys and scales", () => {
    fc.assert(
      fc.property(keys, (k) => {
        expect(must(parseKey(keyText(k)))).toEqual(k);
        expect(scaleText(must(scaleOf(keyText(k))))).toBe(keyText(k));
      }),
    );
  });
});

describe("transposing", () => {
  test("there and back sounds the same, and never takes three accidentals", () => {
    fc.assert(
      fc.property(pitches, keys, keys, (pitch, from, to) => {
        const interval = intervalBetween(from.tonic, to.tonic);
        const there = transposePitch(pitch, interval);
        expect(Math.abs(there.alter)).toBeLessThanOrEqual(2);
        expect(midiNumber(there)).toBe(midiNumber(pitch) + interval.chromatic);
        const back = transposePitch(there, intervalBetween(to.tonic, from.tonic));
        expect(midiNumber(back)).toBe(midiNumber(pitch));
      }),
    );
  });

  test("the way between tonics is at most a tritone, leads to the other tonic, and back the same way", () => {
    fc.assert(
      fc.property(keys, keys, (from, to) => {
        const interval = intervalBetween(from.tonic, to.tonic);
        expect(Math.abs(interval.chromatic)).toBeLessThanOrEqual(6);
        expect(intervalBetween(to.tonic, from.tonic)).toEqual(opposite(interval));
        const tonic = transposePitch({ ...from.tonic, octave: 4 }, interval);
        expect({ letter: tonic.letter, alter: tonic.alter }).toEqual(to.tonic);
      }),
    );
  });

  test("a pattern there and back is the pattern", () => {
    const pattern = compiled({
      meter: "4/4",
      bars: 1,
      key: "D dorian",
      chords: "Dm7",
      parts: { lead: { notes: "1/4 D4 F4 B4 C5" } },
    });
    const near = fc.constantFrom("C", "G", "A", "E", "F", "Bb", "Eb", "Ab", "F#", "B").map((t) => key(`${t} dorian`));
    fc.assert(
      fc.property(near, (k) => {
        const there = transposePattern(pattern, k);
        const back = transposePattern(there, pattern.key);
        expect(noteTexts(back.parts[0]!.variants[""]!)).toEqual(noteTexts(pattern.parts[0]!.variants[""]!));
        expect(back).toEqual(pattern);
      }),
    );
  });
});

describe("spelledIn()", () => {
  test("keeps the sound, and spells the notes of a major key by its letters, one each", () => {
    fc.assert(
      fc.property(tonics, fc.integer({ min: 12, max: 115 }), (tonic, number) => {
        const k = key(`${tonic} major`);
        expect(midiNumber(spelledIn(k, number))).toBe(number);
        if (Math.abs(keySignature(k)) > 7) return;
        const root = midiNumber({ ...k.tonic, octave: 4 });
        const spelled = SCALES.major!.map((step) => spelledIn(k, root + step).letter);
        expect(new Set(spelled).size).toBe(7);
      }),
    );
  });
});
