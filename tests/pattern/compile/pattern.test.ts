import { describe, expect, test } from "vitest";
import {
  compileInstrument,
  compilePattern,
  INSTRUMENTS,
  type PatternDocument,
  pitchText,
  rangeProblems,
  soundingPitch,
  transposePattern,
  writtenPitch,
} from "../../../lib/pattern/index.js";
import { meterText } from "../../../lib/time/index.js";
import { must, wantedProblem } from "../../time/shorthand.js";
import { worded } from "../../words/worded.js";
import { compiled, key, noteTexts, pitch } from "../shorthand.js";

const riff: PatternDocument = {
  title: "Dockside riff",
  meter: "4/4",
  bars: 2,
  key: "D dorian",
  swing: "2:1 1/8 note",
  "pick-up": "1/8 note",
  chords: "rest | Dm7 | G7 C7/E",
  parts: {
    kit: { voices: { hat: "- | x-x-x-x- | same", snare: "x | --X---X- | same" } },
    bass: { instrument: "double bass", notes: "rest | 1/4 D2 1/8 - D2 1/4 F2 A2 | same" },
    lead: {
      variants: {
        plain: { notes: "1/8 A3 | 1/2 D4 - | F4 -" },
        busy: { notes: "rest | 1/4 D4 - 3 in 2 [D4 F4 A4] | same" },
      },
    },
  },
};
const codes = (document: PatternDocument): string[] =>
  worded(compilePattern("riff", document, { instruments: {}, files: () => undefined })).map(
    (p) => `${p.code} ${p.where.pointer}`,
  );

describe("compilePattern()", () => {
  test("puts bars, parts, variants, chords and the pick-up together", () => {
    const pattern = compiled(riff);
    expect(pattern).toMatchObject({
      name: "riff",
      length: { n: 2, d: 1 },
      pickup: { n: 1, d: 8 },
      key: { mode: "dorian" },
    });
    expect(pattern.parts.map((p) => [p.name, p.kind, Object.keys(p.variants)])).toEqual([
      ["kit", "percussion", [""]],
      ["bass", "pitched", [""]],
      ["lead", "pitched", ["plain", "busy"]],
    ]);
    expect(noteTexts(pattern.parts[2]!.variants.plain!)[0]).toBe("-1/8 A3 1/8");
    expect(pattern.chords.map((c) => c.text)).toEqual(["Dm7", "G7", "C7/E"]);
  });

  test("follows changes of meter", () => {
    const changed = {
      meter: "4/4",
      bars: 3,
      "meter-changes": [{ bar: 2, meter: "7/8" }],
      parts: { lead: { notes: "rest | same | 1/8 D4 1/4 - 1/2 -" } },
    };
    const pattern = compiled(changed);
    expect(pattern.bars.map((b) => meterText(b.meter))).toEqual(["4/4", "2+2+3/8", "2+2+3/8"]);
    expect(noteTexts(pattern.parts[0]!.variants[""]!)).toEqual(["15/8 D4 1/8"]);
    expect(
      codes({
        ...changed,
        "meter-changes": [
          { bar: 4, meter: "7/8" },
          { bar: 2, meter: "3/5" },
        ],
      }),
    ).toEqual(["METER_CHANGE_MISPLACED /meter-changes/0/bar", "METER_LOWER_NOT_POWER_OF_TWO /meter-changes/1/meter"]);
  });

  test("collects all problems, each under its pointer", () => {
    const broken: PatternDocument = {
      ...riff,
      key: "D dorain",
      swing: "2:1",
      chords: "rest | Dm7 | 7",
      parts: {
        "a/b": { instrument: "double base", notes: "rest | rest | 1/4 D4" },
        kit: { voices: { hut: "rest | x--- | same" }, track: 2 },
        lead: { notes: "rest | rest | rest", variants: { plain: {} } },
        both: { variants: { one: { notes: "rest | rest | 1/1 D4" }, two: { voices: { hat: "rest | x | x" } } } },
        none: { variants: {} },
      },
    };
    expect(codes(broken)).toEqual([
      "SCALE_UNKNOWN /key",
      "SWING_NOT_READ /swing",
      "CHORD_NOT_READ /chords",
      "INSTRUMENT_UNKNOWN /parts/a~1b/instrument",
      "BAR_TOO_SHORT /parts/a~1b/notes",
      "FILE_OPTION_MISPLACED /parts/kit/track",
      "VOICE_UNKNOWN /parts/kit/voices/hut",
      "PART_WITH_TWO_MUSICS /parts/lead/notes",
      "PART_WITHOUT_MUSIC /parts/lead/variants/plain",
      "PART_MIXES_KINDS /parts/both/variants",
      "PART_WITHOUT_MUSIC /parts/none/variants",
    ]);
  });

  test("refuses bars and pick-ups that cannot be", () => {
    const parts = { lead: { notes: "rest" } };
    expect(codes({ meter: "4/4", bars: 0, parts })).toEqual(["BAR_COUNT_OUT_OF_RANGE /bars"]);
    expect(codes({ meter: "4/4", bars: 2 ** 53, parts })).toEqual(["BAR_COUNT_OUT_OF_RANGE /bars"]);
    expect(codes({ meter: "4/4", bars: 1, "pick-up": "1 bar", parts })).toEqual(["PICKUP_TOO_LONG /pick-up"]);
    expect(codes({ meter: "4/4", bars: 1, parts: {} })).toEqual(["PATTERN_WITHOUT_PARTS /parts"]);
  });

  test("a pitched part leaves the end of its last bar to its own pick-up", () => {
    const lead = { notes: "1/8 A3 | rest | 1/1 D4" };
    expect(codes({ ...riff, parts: { lead } })).toEqual(["PICKUP_MEETS_LAST_BAR /parts/lead"]);
  });

  test("advises where swung pairs do not fill the groups of the meter", () => {
    const uneven = { meter: "7/8", bars: 1, swing: "2:1 1/8", parts: { lead: { notes: "rest" } } };
    expect(codes(uneven)).toEqual(["SWING_LEAVES_NOTE_OVER /swing"]);
    expect(codes({ ...uneven, swing: "2:1 1/16" })).toEqual([]);
    expect(codes({ ...uneven, meter: "3/4" })).toEqual([]);
  });

  test("keeps to the number of notes it may hold", () => {
    const result = compilePattern("riff", riff, { instruments: {}, files: () => undefined, mostNotes: 10 });
    expect(worded(result).map((p) => p.code)).toEqual(["TOO_MANY_NOTES"]);
  });
});

describe("transposePattern()", () => {
  test("moves notes and chords the short way and leaves percussion alone", () => {
    const up = transposePattern(compiled(riff), key("Bb dorian"));
    expect(up.chords.map((c) => c.text)).toEqual(["Bbm7", "Eb7", "Ab7/C"]);
    expect(noteTexts(up.parts[2]!.variants.plain!)).toEqual(["-1/8 F3 1/8", "0 Bb3 1/2", "1 Db4 1/2"]);
    expect(up.parts[0]).toEqual(compiled(riff).parts[0]);
    expect(up.key).toEqual(key("Bb dorian"));
  });
});

describe("instruments", () => {
  test("the part's own instrument is checked against its written range", () => {
    const low = { meter: "4/4", bars: 1, parts: { lead: { instrument: "trumpet", notes: "1/1 D3" } } };
    const problems = worded(compilePattern("riff", low, { instruments: {}, files: () => undefined }));
    expect(problems).toMatchObject([
      { code: "WRITTEN_BELOW_RANGE", where: { pointer: "/parts/lead/notes", offset: 4 } },
    ]);
    expect(problems[0]!.message).toContain("F#3");
    expect(problems[0]!.message).toContain("E3");
  });

  test.each([
    ["1/4 D4 F4 | E3 Eb3", {}, "/notes", 15],
    ["1/2 D4 E♭3", {}, "/notes", 7],
    ["1/4 Bb3 E3 G3 A3", { "written-for": "trumpet" }, "/notes", 8],
  ])("advice on the range of %j stands at the note that is furthest out", (notes, more, at, offset) => {
    const bars = notes.includes("|") ? 2 : 1;
    const part = { instrument: "trumpet", notes, ...more };
    const document = { meter: notes.includes("|") ? "2/4" : "4/4", bars, parts: { lead: part } };
    const found = worded(compilePattern("riff", document, { instruments: {}, files: () => undefined }));
    expect(found).toMatchObject([{ code: "WRITTEN_BELOW_RANGE", where: { pointer: `/parts/lead${at}`, offset } }]);
  });

  test.each([
    ["electric bass", "1/1 A3"],
    ["electric bass", "1/1 Eb4"],
    ["five-string bass", "1/1 B0"],
  ])("the %s has %s: its fingerboard does not end at the twelfth fret", (instrument, notes) => {
    const document = { meter: "4/4", bars: 1, parts: { bass: { instrument, notes } } };
    expect(worded(compilePattern("riff", document, { instruments: {}, files: () => undefined }))).toEqual([]);
  });

  test("rangeProblems() names the furthest note both ways and is silent on the limits", () => {
    const instrument = must(
      compileInstrument("quay horn", { sounds: "perfect fifth lower", lowest: "C3", highest: "C6" }),
    );
    const note = (name: string) => ({
      position: { n: 0, d: 1 },
      length: { n: 1, d: 4 },
      pitch: pitch(name),
      accent: false,
    });
    expect(rangeProblems({ notes: [note("F2"), note("F5")], instrument })).toEqual([]);
    const found = rangeProblems({ notes: [note("E2"), note("D2"), note("F#5")], instrument });
    expect(found.map((p) => p.code)).toEqual(["WRITTEN_BELOW_RANGE", "WRITTEN_ABOVE_RANGE"]);
    expect(found[0]!.message).toContain("A2");
    expect(rangeProblems({ notes: [note("F1")], instrument, octave: 1 })).toEqual([]);
    expect(rangeProblems({ notes: [], instrument })).toEqual([]);
  });

  test("compileInstrument() says what is wrong where", () => {
    const result = compileInstrument("quay horn", { sounds: "perfect third lower", lowest: "H1", highest: "C" });
    expect(worded(result).map((p) => p.where.pointer)).toEqual(["/sounds", "/lowest", "/highest"]);
    wantedProblem(compileInstrument("quay horn", { lowest: "C6", highest: "C3" }), "INSTRUMENT_RANGE_EMPTY");
  });

  test("writtenPitch() and soundingPitch() are inverse for every instrument and octave", () => {
    for (const instrument of Object.values(INSTRUMENTS)) {
      for (const octave of [-1, 0, 2]) {
        expect(pitchText(soundingPitch(writtenPitch(pitch("Eb4"), instrument, octave), instrument, octave))).toBe(
          "Eb4",
        );
      }
    }
  });

  test("names from the prototype are no instruments", () => {
    const odd = { meter: "4/4", bars: 1, parts: { lead: { instrument: "constructor", notes: "rest" } } };
    expect(codes(odd)).toEqual(["INSTRUMENT_UNKNOWN /parts/lead/instrument"]);
  });
});
