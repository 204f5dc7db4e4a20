import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import { compileDrill, rungs, scoreOf } from "../../lib/drill/index.js";
import { compilePattern, type Pattern } from "../../lib/pattern/index.js";
import { midiOf, musicXmlOf, riffPage } from "../../lib/render/index.js";
import { meterText } from "../../lib/time/index.js";
import { noteTexts } from "../pattern/shorthand.js";
import { must } from "../time/shorthand.js";
import { pageOf, patternOf, type Riff, riffs } from "./riffs.js";

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const notesOf = (pattern: Pattern): readonly string[] => noteTexts(pattern.parts[0]!.variants[""]!);

/** A riff taken in again from a file of ours: the bars of the riff, from bar `first` of the file. */
function takenIn(
  riff: Riff,
  bytes: Uint8Array,
  { file, first, track }: { file: string; first: number; track?: string },
) {
  const last = first + riff.bars.length - 1;
  const lead = { file, bars: `${first}-${last}`, ...(track === undefined ? {} : { track }) };
  return compilePattern(
    "riff",
    { meter: meterText(riff.meter), bars: riff.bars.length, key: "C major", parts: { lead } },
    { instruments: {}, files: (path) => (path === file ? bytes : undefined) },
  );
}

/** A riff as a MIDI file: a drill of one phrase, in which it plays throughout, after a bar of count-in. */
function asMidi(pattern: Pattern): Uint8Array {
  const document = {
    pattern: "riff",
    student: "lead",
    phrases: 1,
    outro: "none",
    "count-in": "1 bar",
    // Slow enough for 32nds to be followed.
    tempo: 20,
    mixes: { listen: { lead: "plays" as const } },
    tolerance: {},
  };
  const drill = must(compileDrill("drill", document, { patterns: { riff: pattern }, instruments: {} }));
  return must(midiOf(scoreOf(rungs(drill).at(0))));
}

describe("a part from a file, written again and read again", () => {
  test("is the same through MusicXML: notes, spelling, ties, tuplets, accents", () => {
    fc.assert(
      fc.property(riffs, (riff) => {
        const written = utf8(must(musicXmlOf(pageOf(riff))));
        const once = must(takenIn(riff, written, { file: "riff.musicxml", first: 1 }));
        expect(notesOf(once)).toEqual(notesOf(patternOf(riff)));
        const again = utf8(must(musicXmlOf(riffPage(once, { part: "lead" }))));
        expect(notesOf(must(takenIn(riff, again, { file: "riff.musicxml", first: 1 })))).toEqual(notesOf(once));
      }),
      { numRuns: 150 },
    );
  });

  test("is the same through MIDI, which holds keys rather than spellings", () => {
    fc.assert(
      fc.property(riffs, (riff) => {
        const setting = { file: "riff.mid", first: 2, track: "lead" };
        const once = must(takenIn(riff, asMidi(patternOf(riff)), setting));
        const again = must(takenIn(riff, asMidi(once), setting));
        expect(notesOf(again)).toEqual(notesOf(once));
        const places = (pattern: Pattern) => notesOf(pattern).map((text) => text.replace(/ [A-G][#b]*\d /, " "));
        expect(places(once)).toEqual(places(patternOf(riff)));
      }),
      { numRuns: 150 },
    );
  });

  const compiled = (notes: string, more: Record<string, unknown> = {}): Pattern =>
    must(
      compilePattern(
        "riff",
        { meter: "4/4", bars: 2, key: "C major", ...more, parts: { lead: { notes } } },
        { instruments: {}, files: () => undefined },
      ),
    );
  const fromFile = (text: string, more: Record<string, unknown> = {}) =>
    compilePattern(
      "riff",
      { meter: "4/4", bars: 2, key: "C major", ...more, parts: { lead: { file: "riff.xml" } } },
      { instruments: {}, files: () => utf8(text) },
    );

  test("keeps a pick-up", () => {
    const pattern = compiled("1/8 G4 A4 | 1/4 C5 D5 1/2 E5 | C5 -", { "pick-up": "1/4 note" });
    const again = must(fromFile(must(musicXmlOf(riffPage(pattern, { part: "lead" }))), { "pick-up": "1/4 note" }));
    expect(notesOf(again)).toEqual(notesOf(pattern));
  });

  test("keeps quintuplets, and triplets tied across a beat", () => {
    const pattern = compiled("5 in 4 [1/8 C4 D4 E4 F4 G4] 3 in 2 [1/8 C4 D4 E4] 3 in 2 [1/8 tie F4 G4] | 1/1 C4");
    expect(notesOf(must(fromFile(must(musicXmlOf(riffPage(pattern, { part: "lead" }))))))).toEqual(notesOf(pattern));
  });

  test("writes repeats out", () => {
    const once = must(musicXmlOf(riffPage(compiled("1/1 C4 | D4"), { part: "lead" })));
    const repeated = once
      .replace(/<measure number="2">[\s\S]*?<\/measure>\n/, "")
      .replace(/<\/measure>/, '<barline location="right"><repeat direction="backward"/></barline></measure>');
    expect(notesOf(must(fromFile(repeated)))).toEqual(["0 C4 1", "1 C4 1"]);
  });

  test("says with bar and part what it leaves out: grace notes, several voices", () => {
    const plain = must(musicXmlOf(riffPage(compiled("1/1 C4 | D4"), { part: "lead" })));
    const grace = "<note><grace/><pitch><step>C</step><octave>5</octave></pitch></note>";
    const found = problemsIn(fromFile(plain.replace('<measure number="2">', `<measure number="2">${grace}`)));
    expect(found).toMatchObject([{ code: "MUSICXML_GRACE_NOTE", message: expect.stringContaining("(bar 2 of Lead)") }]);
  });
});
