import { describe, expect, test } from "vitest";
import { compilePattern, type PartDocument } from "../../../lib/pattern/index.js";
import { file, meta, name, off, on } from "../../formats/midi/midiBytes.js";
import { FOUR_FOUR, note, rest, score } from "../../formats/musicxml/musicXmlText.js";
import { must } from "../../time/shorthand.js";
import { worded } from "../../words/worded.js";
import { noteTexts } from "../shorthand.js";

/** Two bars of 4/4: a pick-up eighth at the end of bar 1, D4 and F4 in bar 2, A4 in bar 3; drums on channel 10. */
const midi = file(
  [...meta(0, 0x58, 4, 2, 24, 8), ...name("conductor")],
  [
    ...name("lead"),
    ...on(1680, 57),
    ...off(240, 57),
    ...on(0, 62, 120),
    ...off(480, 62),
    ...on(480, 65),
    ...off(960, 65),
    ...on(0, 69),
    ...off(1680, 69),
  ],
  [...name("drums"), ...on(1920, 36, 64, 9), ...off(120, 36, 9), ...on(360, 30, 64, 9), ...off(1, 30, 9)],
);
const transposed = score(
  `<measure number="0" implicit="yes">${FOUR_FOUR}<attributes><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>${note("B3", 6)}</measure>`,
  note("E4", 12) + rest(36),
  `<note><grace/><pitch><step>D</step><octave>4</octave></pitch></note>${note("G4", 48)}`,
);
const FILES: Readonly<Record<string, Uint8Array>> = {
  "riff.mid": midi,
  "riff.xml": new TextEncoder().encode(transposed),
  "riff.txt": new TextEncoder().encode("1/4 D4"),
  "riff.mxl": Uint8Array.of(0x50, 0x4b, 3, 4),
  "cut.mid": midi.slice(0, 40),
};

const compile = (part: PartDocument, bars = 2, meter = "4/4", pickup?: string) =>
  compilePattern(
    "riff",
    { meter, bars, key: "D dorian", ...(pickup === undefined ? {} : { "pick-up": pickup }), parts: { lead: part } },
    { instruments: {}, files: (path) => FILES[path] },
  );
const taken = (...asked: Parameters<typeof compile>) => noteTexts(must(compile(...asked)).parts[0]!.variants[""]!);
const codes = (...asked: Parameters<typeof compile>) =>
  worded(compile(...asked)).map((p) => `${p.code} ${p.where.pointer}`);

describe("a part from a MIDI file", () => {
  test("takes the bars of the track asked for, and what stands before them as the pick-up", () => {
    expect(taken({ file: "riff.mid", track: "lead", bars: "2-3" }, 2, "4/4", "1/8 note")).toEqual([
      "-1/8 A3 1/8",
      "0 D4 1/4 !",
      "1/2 F4 1/2",
      "1 A4 7/8",
    ]);
  });

  test("leaves out what began before, and ends what rings on, and says so", () => {
    const result = compile({ file: "riff.mid", track: 2, bars: "2" }, 1);
    expect(worded(result)).toEqual([]);
    const held = file([...on(0, 62), ...off(2400, 62), ...on(480, 65), ...off(1920, 65)]);
    const document = { meter: "4/4", bars: 1, parts: { lead: { file: "held.mid", bars: "2" } } };
    const cut = compilePattern("riff", document, { instruments: {}, files: () => held });
    expect(noteTexts(must(cut).parts[0]!.variants[""]!)).toEqual(["1/2 F4 1/2"]);
    expect(worded(cut).map((p) => p.code)).toEqual(["FILE_NOTE_CUT"]);
    expect(worded(cut)[0]!.message).toBe(
      "1 note begins before the first bar taken and is left out; 1 note rings past the last bar and is cut there",
    );
  });

  test("knows drums by their channel and leaves out keys without a voice, with advice", () => {
    const result = compile({ file: "riff.mid", track: "drums", bars: "2" }, 1);
    expect(must(result).parts[0]!.kind).toBe("percussion");
    expect(noteTexts(must(result).parts[0]!.variants[""]!)).toEqual(["0 kick 1/16"]);
    expect(worded(result).map((p) => p.code)).toEqual(["FILE_VOICE_UNKNOWN"]);
  });

  test.each([
    [{ file: "riff.mid", track: 9 }, "FILE_TRACK_UNKNOWN /parts/lead/track"],
    [{ file: "riff.mid", track: "leed" }, "FILE_TRACK_UNKNOWN /parts/lead/track"],
    [{ file: "riff.mid" }, "FILE_TRACK_UNKNOWN /parts/lead/file"],
    [{ file: "riff.mid", part: "P1" }, "FILE_OPTION_MISPLACED /parts/lead/part"],
    [{ file: "riff.mid", track: 2, bars: "0-1" }, "FILE_BARS_NOT_READ /parts/lead/bars"],
    [{ file: "riff.mid", track: 2, bars: "all" }, "FILE_BARS_NOT_READ /parts/lead/bars"],
    [{ file: "riff.mid", track: 2, bars: "1-4" }, "FILE_BAR_COUNT_DIFFERS /parts/lead/bars"],
    [{ file: "riff.mid", track: 2, bars: "9-10" }, "FILE_WITHOUT_NOTES /parts/lead/file"],
    [{ file: "none.mid" }, "FILE_NOT_FOUND /parts/lead/file"],
    [{ file: "riff.txt" }, "FILE_KIND_UNKNOWN /parts/lead/file"],
    [{ file: "riff.mxl" }, "MUSICXML_COMPRESSED /parts/lead/file"],
    [{ file: "cut.mid" }, "MIDI_CHUNK_TRUNCATED /parts/lead/file"],
  ])("%j: %s", (part, code) => expect(codes(part)).toEqual([code]));

  test("a pattern in another meter is refused", () => {
    expect(codes({ file: "riff.mid", track: 2 }, 2, "3/4")).toEqual([
      "FILE_METER_DIFFERS /parts/lead/file",
      "FILE_METER_DIFFERS /parts/lead/file",
    ]);
  });

  test("a file that was played rather than written is advised of", () => {
    const played = file([...on(7, 62), ...off(480, 62)]);
    const document = { meter: "4/4", bars: 1, parts: { lead: { file: "played.mid" } } };
    const result = compilePattern("riff", document, { instruments: {}, files: () => played });
    expect(worded(result).map((p) => p.code)).toEqual(["FILE_OFF_GRID"]);
  });
});

describe("a part from a file of another kind", () => {
  const one = (bytes: Uint8Array) => {
    const document = { meter: "4/4", bars: 1, parts: { lead: { file: "one.mid" } } };
    return worded(compilePattern("riff", document, { instruments: {}, files: () => bytes })).map((p) => p.code);
  };

  test("that counts in frames has no bars", () => {
    const frames = file([...on(0, 62), ...off(480, 62)]);
    frames.set([0xe7, 40], 12);
    expect(one(frames)).toEqual(["FILE_WITHOUT_BARS"]);
  });

  test("that holds chords is advised of", () => {
    expect(one(file([...on(0, 62), ...on(0, 65), ...off(480, 62), ...off(0, 65)]))).toEqual(["FILE_CHORDS"]);
  });
});

describe("a part from a MusicXML file", () => {
  test("is in concert pitch, with its pick-up, bars counted from 1 without it", () => {
    const result = compile({ file: "riff.xml", bars: "1" }, 1, "4/4", "1/8 note");
    expect(noteTexts(must(result).parts[0]!.variants[""]!)).toEqual(["-1/8 A3 1/8", "0 D4 1/4"]);
    expect(worded(result)).toEqual([]);
  });

  test("says what is left out of the bars taken, and only of those", () => {
    expect(codes({ file: "riff.xml", bars: "2" }, 1)).toEqual(["MUSICXML_GRACE_NOTE /parts/lead/file"]);
    expect(taken({ file: "riff.xml", part: "Lead", bars: "2" }, 1)).toEqual(["0 F4 1"]);
  });

  test.each([
    [{ file: "riff.xml", part: "P2" }, "FILE_PART_UNKNOWN /parts/lead/part"],
    [{ file: "riff.xml", track: 1 }, "FILE_OPTION_MISPLACED /parts/lead/track"],
    [{ file: "riff.xml", bars: "2-3" }, "FILE_BAR_COUNT_DIFFERS /parts/lead/bars"],
  ])("%j: %s", (part, code) => expect(codes(part)).toEqual([code]));
});
