import fc from "fast-check";
import { getAllNotes, type NoteEntry, parse, validate } from "musicxml-io";
import { describe, expect, test } from "vitest";
import { add, equals, fractionText } from "../../../lib/base/index.js";
import { readMusicXml } from "../../../lib/formats/index.js";
import { marksOf, midiNumber, type Note } from "../../../lib/pattern/index.js";
import { musicXmlOf } from "../../../lib/render/index.js";
import { compiled } from "../../pattern/shorthand.js";
import { must } from "../../time/shorthand.js";
import { pageOf, type Riff, riffs } from "../riffs.js";
import { schemaComplaints, schemaIsThere } from "./schema.js";

const MARKS = ["short", "tenuto", "scoop", "fall", "slurred"] as const;

/** Random riffs whose notes have random marks; slurred are only those that lead to a note of another pitch. */
const marked: fc.Arbitrary<Riff> = fc
  .record({ riff: riffs, marks: fc.infiniteStream(fc.subarray([...MARKS])) })
  .map(({ riff, marks }) => {
    const notes = riff.notes.map((note, i): Note => {
      const next = riff.notes[i + 1];
      const own = new Set(marks.next().value as readonly string[]);
      const goesOn = next !== undefined && equals(next.position, add(note.position, note.length));
      if (!goesOn || midiNumber(next.pitch!) === midiNumber(note.pitch!)) own.delete("slurred");
      return { ...note, ...marksOf(Object.fromEntries([...own].map((mark) => [mark, true]))) };
    });
    return { ...riff, notes };
  });

const textOf = (note: { readonly [mark in (typeof MARKS)[number] | "accent"]?: boolean }): string =>
  [...MARKS, "accent" as const].filter((mark) => note[mark]).join(" ");

describe("marks in MusicXML", () => {
  test("are read back note by note, also where notes are tied over bar lines and out of tuplets", () => {
    fc.assert(
      fc.property(marked, (riff) => {
        const file = must(readMusicXml(new TextEncoder().encode(must(musicXmlOf(pageOf(riff))))));
        expect(file.parts[0]!.notes.map((note) => `${fractionText(note.position)} ${textOf(note)}`)).toEqual(
          riff.notes.map((note) => `${fractionText(note.position)} ${textOf(note)}`),
        );
      }),
      { numRuns: 300 },
    );
  });

  test("are understood by another reader, musicxml-io: each sign at its note, every slur with its two ends", () => {
    const names = { staccato: "short", tenuto: "tenuto", scoop: "scoop", falloff: "fall", accent: "accent" } as const;
    fc.assert(
      fc.property(marked, (riff) => {
        const score = parse(must(musicXmlOf(pageOf(riff))));
        const isAdditive = score.parts[0]!.measures.some(({ attributes }) => attributes?.time?.beats.includes("+"));
        const errors = validate(score).errors.filter(
          ({ code }) => !(isAdditive && code === "MEASURE_DURATION_OVERFLOW"),
        );
        expect(errors).toEqual([]);
        const heads = getAllNotes(score)
          .map(({ note }) => note)
          .filter(({ pitch }) => pitch !== undefined);
        const read: Set<string>[] = [];
        let inSlur = false;
        for (const head of heads) {
          if (!isTiedOn(head)) read.push(new Set());
          for (const notation of head.notations ?? []) {
            if (notation.type === "articulation") read.at(-1)!.add(names[notation.articulation as keyof typeof names]);
            if (notation.type === "slur") inSlur = notation.slurType === "start";
          }
          if (inSlur) read.at(-1)!.add("slurred");
          else read.at(-1)!.delete("slurred");
        }
        const asText = (marks: ReadonlySet<string>): string =>
          [...MARKS, "accent"].filter((mark) => marks.has(mark)).join(" ");
        expect(read.map(asText)).toEqual(riff.notes.map(textOf));
      }),
      { numRuns: 200 },
    );
  });

  test.skipIf(!schemaIsThere)("are valid against the schema of the W3C", () => {
    fc.assert(
      fc.property(marked, (riff) => void expect(schemaComplaints(must(musicXmlOf(pageOf(riff))))).toEqual([])),
      { numRuns: 60 },
    );
  });
});

describe("a riff taken from a MusicXML file", () => {
  const take = (body: string): readonly Note[] => {
    const xml = `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>A</part-name></score-part></part-list><part id="P1"><measure number="1"><attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>${body}</measure></part></score-partwise>`;
    const parts = { lead: { file: "a.musicxml" } };
    return compiled({ meter: "4/4", bars: 1, parts }, { "a.musicxml": new TextEncoder().encode(xml) }).parts[0]!
      .variants[""]!;
  };
  const note = (step: string, notations: string): string =>
    `<note><pitch><step>${step}</step><octave>4</octave></pitch><duration>1</duration><notations>${notations}</notations></note>`;

  test("has its marks, and no slur that leads to silence or to the pitch it comes from", () => {
    const start = '<slur type="start"/>';
    const stop = '<slur type="stop"/>';
    const fall = "<articulations><falloff/></articulations>";
    const notes = take(
      note("D", start) + note("D", "") + note("E", stop + fall) + note("F", '<slur type="start" number="2"/>'),
    );
    expect(notes.map(textOf)).toEqual(["", "slurred", "fall", ""]);
  });
});

function isTiedOn({ tie, ties }: NoteEntry): boolean {
  return [...(ties ?? []), ...(tie ? [tie] : [])].some(({ type }) => type === "stop");
}
