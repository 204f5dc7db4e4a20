import midiFile, { type MidiEvent } from "midi-file";
import { describe, expect, test } from "vitest";
import { compileDrill, rungs, scoreOf } from "../../../lib/drill/index.js";
import { chordTransposed } from "../../../lib/pattern/chordSymbol.js";
import { compilePattern, type Note } from "../../../lib/pattern/index.js";
import { midiOf } from "../../../lib/render/index.js";
import { musicXmlOf, takePage } from "../../../lib/render/musicxml/index.js";
import { FOUR_FOUR, score } from "../../formats/musicxml/musicXmlText.js";
import { must } from "../../time/shorthand.js";

const said = ({ loudness, accent, ghost }: Note): string => `${loudness ?? ""}${accent ? "!" : ""}${ghost ? "g" : ""}`;

/** The notes of a bar of a file. */
function taken(bytes: Uint8Array, name: string, part: object = {}): readonly Note[] {
  const document = { meter: "4/4", bars: 1, key: "C major", parts: { lead: { file: name, ...part } } };
  const compiled = compilePattern("riff", document, { instruments: {}, files: () => bytes });
  return must(compiled).parts[0]!.variants[""]!;
}

/** Eighths of these velocities in a file that another program writes. */
function midiWith(velocities: readonly number[]): Uint8Array {
  const notes = velocities.flatMap((velocity): MidiEvent[] => [
    { deltaTime: 0, type: "noteOn", channel: 0, noteNumber: 60, velocity },
    { deltaTime: 240, type: "noteOff", channel: 0, noteNumber: 60, velocity: 0 },
  ]);
  const end: MidiEvent = { deltaTime: 0, type: "endOfTrack", meta: true };
  const header = { format: 0 as const, numTracks: 1, ticksPerBeat: 480 };
  return Uint8Array.from(midiFile.writeMidi({ header, tracks: [[...notes, end]] }));
}

describe("loudness and ghost notes of files", () => {
  test("velocities of a MIDI file are the marks they are nearest to; from 110 on accents, below 42 ghost notes", () => {
    expect(taken(midiWith([44, 58, 73, 88, 98, 108, 112, 40]), "a.mid").map(said)).toEqual([
      "pp",
      "p",
      "mp",
      "mf",
      "f",
      "ff",
      "mf!",
      "mfg",
    ]);
    expect(taken(midiWith([127, 122, 50, 41, 42, 1, 20, 103]), "a.mid").map(said)).toEqual([
      "ff!",
      "f!",
      "pp",
      "mfg",
      "pp",
      "ppg",
      "ppg",
      "f",
    ]);
  });

  test.each([1, 64, 80, 100, 127])("a file whose notes all have velocity %i says nothing of loudness", (velocity) => {
    for (const note of taken(midiWith(new Array<number>(8).fill(velocity)), "a.mid"))
      expect(note).not.toHaveProperty("loudness");
  });

  test("dynamic marks and heads in parentheses of a MusicXML file hold from where they stand, into the bars that follow", () => {
    const mark = (name: string): string =>
      `<direction><direction-type><dynamics><${name}/></dynamics></direction-type></direction>`;
    const note = (extra = ""): string =>
      `<note><pitch><step>C</step><octave>4</octave></pitch><duration>12</duration>${extra}</note>`;
    const ghost = '<notehead parentheses="yes">normal</notehead>';
    const xml = score(
      `<measure number="1">${FOUR_FOUR}${note()}${mark("pp")}${note()}${mark("sf")}${note(ghost)}${mark("fff")}${note()}</measure>`,
      note() + mark("mp") + note() + note() + note(),
    );
    const bytes = new TextEncoder().encode(xml);
    expect(taken(bytes, "a.musicxml").map(said)).toEqual(["", "pp", "ppg", "ff"]);
    expect(taken(bytes, "a.musicxml", { bars: "2" }).map(said)).toEqual(["ff", "mp", "mp", "mp"]);
  });

  test("what is rendered to MIDI and MusicXML is read back as it was", () => {
    const notes = "pp 1/8 C4 (C4) f D4! D4 mp E4 (E4) ff F4 G4";
    const written = ["pp", "ppg", "f!", "f", "mp", "mpg", "ff", "ff"];
    const pattern = must(
      compilePattern(
        "riff",
        { meter: "4/4", bars: 1, key: "C major", parts: { kit: { click: "every beat" }, lead: { notes } } },
        { instruments: {}, files: () => undefined },
      ),
    );
    expect(pattern.parts[1]!.variants[""]!.map(said)).toEqual(written);
    const document = { pattern: "riff", student: "lead", tempo: 90, tolerance: { steadiness: "40 ms" } };
    const drill = must(
      compileDrill(
        "hold",
        { ...document, mixes: { all: { lead: "plays" } } },
        { patterns: { riff: pattern }, instruments: {} },
      ),
    );
    const rung = rungs(drill).at(0);
    const midi = must(midiOf(scoreOf(rung, "all")));
    // Bar 1 of the file is the count-in.
    expect(taken(midi, "a.mid", { track: "lead", bars: "2" }).map(said)).toEqual(written);
    const xml = must(musicXmlOf(takePage(rung, { staves: "student", mix: "all" })));
    expect(taken(new TextEncoder().encode(xml), "a.musicxml", { bars: "1" }).map(said)).toEqual(written);
  });
});

describe("chord symbols that are transposed", () => {
  test.each([
    ["E#7", "F#7"],
    ["B#m7", "C#m7"],
    ["Dm7", "D#m7"],
    ["C#maj7/G#", "Dmaj7/A"],
    ["N.C.", "N.C."],
  ])("%s an augmented unison up is %s, without a double sign", (from, to) => {
    expect(chordTransposed(from, { diatonic: 0, chromatic: 1 })).toBe(to);
  });

  test.each([
    ["Fb7", "Eb7"],
    ["Cb/Gb", "Bb/F"],
    ["Bbm", "Am"],
  ])("%s an augmented unison down is %s", (from, to) => {
    expect(chordTransposed(from, { diatonic: 0, chromatic: -1 })).toBe(to);
  });
});
