import { describe, expect, test } from "vitest";
import { add, fraction, fractionText, problemsIn } from "../../../lib/base/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { readMusicXml } from "../../../lib/formats/index.js";
import { INSTRUMENTS, midiNumber, parsePitch as readPitch } from "../../../lib/pattern/index.js";
import { musicXmlOf, riffPage, takePage, tickMap, writtenScore } from "../../../lib/render/index.js";
import { harmony } from "../../../lib/render/musicxml/harmony.js";
import { exactly } from "../../../lib/render/scoreTime.js";
import { drillOf, jetty } from "../../drill/material.js";
import { must } from "../../time/shorthand.js";
import { drills } from "../courses.js";
import { pageOf } from "../riffs.js";
import { schemaComplaints, schemaIsThere } from "./schema.js";
import { bar44, beams, drawn, notesIn, take, written } from "./shorthand.js";
import { walkedNotes } from "./walk.js";

describe("the schema check", () => {
  test.skipIf(!schemaIsThere)("finds what it looks for: a dot before the type, an unknown element", () => {
    const xml = must(musicXmlOf(pageOf({ meter: { kind: "simple", groups: [4], lower: 4 }, bars: bar44, notes: [] })));
    expect(schemaComplaints(xml)).toEqual([]);
    expect(schemaComplaints(xml.replace("<voice>", "<dot/><voice>"))).not.toEqual([]);
    expect(schemaComplaints(xml.replace("<part-name>Lead</part-name>", "<name>lead</name>"))).not.toEqual([]);
  });
});

describe("every rung's page", () => {
  test.each(drills)("%s: is valid for every player, student's part and score", (_name, drill) => {
    const all = rungs(drill);
    for (const index of new Set([0, all.count - 1])) {
      for (const player of [undefined, ...drill.players]) {
        for (const staves of ["student", "every"] as const) {
          const xml = must(musicXmlOf(takePage(all.at(index), { staves, player })));
          if (schemaIsThere) expect(schemaComplaints(xml)).toEqual([]);
        }
      }
    }
  });

  test.each(drills)("%s: has the expected notes on the ticks of the MIDI file, for every player", (_name, drill) => {
    const rung = rungs(drill).at(0);
    const score = scoreOf(rung);
    const ticks = tickMap(score);
    const own = writtenScore(rung).parts.find(({ student }) => student)!;
    for (const { instrument, octave } of drill.players) {
      const xml = must(musicXmlOf(takePage(rung, { staves: "student", player: { instrument, octave } })));
      const found = walkedNotes(xml, "P1");
      expect(found).toHaveLength(own.notes.length);
      for (const [i, note] of own.notes.entries()) {
        expect(found[i]).toMatchObject({ position: note.position, length: note.length });
        expect(found[i]!.sounds - 12 * octave).toBe(midiNumber(must(readPitch(note.pitch!))));
        expect(ticks.seconds(ticks.sounding(exactly(found[i]!.position)))).toBeCloseTo(note.at, 6);
      }
    }
  });
});

describe("note values", () => {
  // Common practice, as in any handbook of notation; no single source.
  test.each([
    ["1/4 C4 D4 1/2 E4", ["quarter", "quarter", "half"]],
    ["1/4 C4 1/2 D4 1/4 E4", ["quarter", "half", "quarter"]],
    ["1/8 C4 1/4 D4 1/8 E4 1/2 F4", ["eighth", "quarter", "eighth", "half"]],
    ["3/4 C4 1/4 D4", ["half.", "quarter"]],
    ["1/4 C4 3/4 D4", ["quarter", "half."]],
    ["3/8 C4 D4 1/4 E4", ["quarter.", "eighth~", "quarter", "quarter"]],
    ["1/8 C4 1/2 D4 3/8 E4", ["eighth", "quarter.~", "eighth", "quarter."]],
    ["rest", ["bar r"]],
    ["1/4 C4 3/4 -", ["quarter", "quarter r", "half r"]],
    ["3/4 - 1/4 C4", ["half r", "quarter r", "quarter"]],
    ["1/8 C4 1/4 - 1/8 D4 1/2 -", ["eighth", "eighth r", "eighth r", "eighth", "half r"]],
  ])("%s in 4/4 show the middle of the bar", (notes, expected) => expect(drawn(written(notes))).toEqual(expected));

  test("show the dotted beats of 6/8 and the groups of 7/8", () => {
    expect(drawn(written("3/8 C4 D4", { meter: "6/8" }))).toEqual(["quarter.", "quarter."]);
    expect(drawn(written("1/8 C4 1/2 D4 1/8 E4", { meter: "6/8" }))).toEqual([
      "eighth",
      "quarter~",
      "quarter",
      "eighth",
    ]);
    expect(drawn(written("1/4 - 1/8 C4 1/4 D4 1/8 -", { meter: "6/8" }))).toEqual([
      "quarter r",
      "eighth",
      "quarter",
      "eighth r",
    ]);
    expect(drawn(written("3/8 C4 1/2 D4", { meter: "2+2+3/8" }))).toEqual([
      "quarter~",
      "eighth",
      "eighth~",
      "quarter.",
    ]);
  });

  test("tie a note across the bar line, its accent on the first only", () => {
    const xml = written("1/2 C4 D4! | 1/4 tie 3/4 E4", { bars: 2 });
    expect(drawn(xml)).toEqual(["half", "half~", "quarter", "half."]);
    expect(xml.match(/<accent\/>/g)).toHaveLength(1);
    expect(xml.match(/<tied type="stop"\/>/g)).toHaveLength(1);
  });

  test("write one accent for a chord, on its lowest note", () => {
    const xml = written("1/2 E4+C4+G4! C4");
    expect(xml.match(/<accent\/>/g)).toHaveLength(1);
    expect(notesIn(xml)[0]).toMatch(/<step>C<.*<accent\/>/);
  });

  test("say loudness where it changes, and mf where a riff that says any says none", () => {
    const xml = written("1/4 C4 pp D4 E4 ff F4 | G4 mf A4 - p B4", { bars: 2 });
    const marks =
      /<dynamics><(\w+)\/><\/dynamics><\/direction-type>(?:<offset>\d+<\/offset>)?<sound dynamics="([\d.]+)"\/>/g;
    const said = [...xml.matchAll(marks)];
    expect(said.map(([, mark]) => mark)).toEqual(["mf", "pp", "ff", "mf", "p"]);
    // In per cent of velocity 90 (MusicXML 4.0, `sound`): 88 is mf.
    expect(said[0]![2]).toBe("97.78");
    expect(written("1/1 C4!")).not.toContain("<dynamics");
  });

  test("put the head of a ghost note into parentheses, on drums too, and a dot at a short note", () => {
    const xml = written("1/4 (C4) (C4+E4) D4. E4+C4!.");
    expect(notesIn(xml).map((note) => note.includes('<notehead parentheses="yes">normal</notehead>'))).toEqual([
      ...[true, true, true, false, false, false],
    ]);
    expect(notesIn(xml)[3]).toContain("<articulations><staccato/></articulations>");
    expect(notesIn(xml)[4]).toContain("<articulations><accent/><staccato/></articulations>");
    expect(notesIn(xml)[5]).not.toContain("articulations");
  });

  test("say what an unusual tuplet is in the time of", () => {
    expect(written("5 in 4 [1/8 C4 D4 E4 F4 G4] 1/2 -")).not.toContain("show-number");
    expect(written("5 in 3 [1/8 C4 D4 E4 F4 G4]", { meter: "3/8" })).toContain('show-number="both"');
  });

  test("join no tuplet that begins outside a beam to what stands beside it", () => {
    expect(beams(written("3 in 2 [1/16 - C4 D4] 1/16 E4 F4 1/4 - 1/2 -")).filter((beam) => beam !== "")).toEqual([
      ...["begin+begin", "end+end", "begin+begin", "end+end"],
    ]);
    expect(beams(written("3 in 2 [1/16 C4 C4 D4] 1/8 E4 1/4 - 1/2 -"))[2]).toMatch(/^continue/);
  });

  test("bracket a tuplet whose beam goes on beside it", () => {
    expect(written("3 in 2 [1/16 C4 D4 E4] 1/8 F4 1/4 - 1/2 -")).toContain('<tuplet type="start" bracket="yes"');
    expect(written("3 in 2 [1/8 C4 D4 E4] 1/4 F4 1/2 -")).toContain('<tuplet type="start" bracket="no"');
  });

  test("write triplets, quintuplets and ties into them", () => {
    const triplets = written("3 in 2 [1/8 C4 D4 E4] 3 in 2 [1/4 F4 1/8 G4] 5 in 4 [1/8 C4 D4 E4 F4 G4]");
    expect(drawn(triplets)).toEqual([
      ...["eighth", "eighth", "eighth", "quarter", "eighth"],
      ...["eighth", "eighth", "eighth", "eighth", "eighth"],
    ]);
    expect(
      [...triplets.matchAll(/<actual-notes>(\d+)<\/actual-notes><normal-notes>(\d+)/g)].map(([, a, n]) => `${a}:${n}`),
    ).toEqual([...new Array<string>(5).fill("3:2"), ...new Array<string>(5).fill("5:4")]);
    expect(triplets.match(/<tuplet type="start"/g)).toHaveLength(3);
    expect(triplets.match(/<tuplet type="stop"/g)).toHaveLength(3);
    expect(drawn(written("3 in 2 [1/4 C4 D4 E4] 3 in 2 [1/8 C4 D4 E4] 1/4 tie"))).toEqual([
      ...["quarter", "quarter", "quarter", "eighth", "eighth", "eighth~", "quarter"],
    ]);
  });

  test("keep to the beats of a tuplet where notes are held over both its edges", () => {
    const held = written("1/4 C4 D4 5 in 4 [1/8 tie 3/16 E4] 1/8 tie -");
    expect(drawn(held)).toEqual(["quarter", "quarter~", "eighth", "eighth.~", "eighth", "eighth r"]);
    expect(held.match(/<actual-notes>5</g)).toHaveLength(2);
  });

  test("refuse what was played rather than written, with part and bar", () => {
    const odd = [{ position: fraction(0), length: fraction(1, 1920), pitch: must(readPitch("D4")), accent: false }];
    const page = pageOf({ meter: bar44[0]!.meter, bars: bar44, notes: odd });
    expect(problemsIn(musicXmlOf(page))).toMatchObject([
      { code: "NOTE_NOT_NOTATABLE", message: expect.stringContaining("bar 1 of lead") },
    ]);
  });
});

describe("beams", () => {
  const eighths = (count: number): string => new Array<string>(count).fill("1/8 C4").join(" ");
  test("follow the groups of the meter: 7/8 as 2+2+3, 6/8 in threes", () => {
    const [b, c, e] = ["begin", "continue", "end"];
    expect(beams(written(eighths(7), { meter: "2+2+3/8" }))).toEqual([b, e, b, e, b, c, e]);
    expect(beams(written(eighths(7), { meter: "3+2+2/8" }))).toEqual([b, c, e, b, e, b, e]);
    expect(beams(written(eighths(6), { meter: "6/8" }))).toEqual([b, c, e, b, c, e]);
    expect(beams(written(eighths(6), { meter: "3/4" }))).toEqual([b, e, b, e, b, e]);
    expect(beams(written(eighths(8)))).toEqual([b, c, c, e, b, c, c, e]);
  });

  test("of sixteenths keep to the beat, with hooks where one stands alone", () => {
    expect(beams(written("1/16 C4 C4 1/8 C4 3/16 C4 1/16 C4 1/2 C4"))).toEqual([
      ...["begin+begin", "continue+end", "end", "begin", "end+backward hook", ""],
    ]);
  });

  test("stop at rests and at longer notes", () => {
    expect(beams(written("1/8 C4 - C4 C4 C4 1/4 C4 1/8 C4"))).toEqual(["", "", "begin", "end", "", "", ""]);
  });
});

describe("what stands around the notes", () => {
  test("a tempo is in quarters for machines and in beats for people", () => {
    const ferry = take("ferry-steady");
    expect(ferry).toContain("<beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>54</per-minute>");
    expect(ferry).toContain('<sound tempo="81"/>');
  });

  test("a swing is said in words and in the smallest whole numbers", () => {
    expect(take("lantern-steady")).toContain(
      "<swing><first>2</first><second>1</second><swing-type>eighth</swing-type></swing>",
    );
  });

  test("phrases have rehearsal marks, and the outro has its own", () => {
    const marks = [...take("half-bar").matchAll(/<rehearsal>(.*?)<\/rehearsal>/g)].map(([, mark]) => mark);
    expect(marks).toEqual(["A", "B", "C", "D", "outro"]);
  });

  test("silences are bracketed from where the parts go out to where they are in again", () => {
    const xml = take("half-bar");
    expect(xml.match(/<words>bass, kit out<\/words>/g)).toHaveLength(4);
    expect(xml.match(/<words>bass, kit in<\/words>/g)).toHaveLength(4);
    expect(xml.match(/<bracket type="start"/g)).toHaveLength(4);
    expect(xml.match(/<bracket type="stop"/g)).toHaveLength(4);
  });

  test("parts that drop rest in the silence, the student's does not", () => {
    const drill = drills.find(([name]) => name === "one-bar")![1];
    const rung = rungs(drill).at(0);
    const xml = must(musicXmlOf(takePage(rung, { staves: "every" })));
    const score = scoreOf(rung);
    const bars = score.dropouts.flatMap(({ bars = [] }) => bars);
    const file = must(readMusicXml(new TextEncoder().encode(xml)));
    for (const part of file.parts) {
      const inSilence = part.notes.filter((note) => bars.includes(Number(part.bars[note.bar]!.number)));
      if (part.name.toLowerCase() === drill.student) expect(inSilence).not.toEqual([]);
      else expect(inSilence, part.name).toEqual([]);
    }
  });

  test("open bars have slashes and the scale as the player reads it", () => {
    const xml = take("tidewater-open", { player: { instrument: INSTRUMENTS.trumpet!, octave: 0 } }, 1);
    expect(xml).toContain('<measure-style><slash type="start" use-stems="no"/></measure-style>');
    expect(xml).toContain("<words>G major pentatonic: G A B D E</words>");
    const [starts, stops] = [/<slash type="start"/g, /<slash type="stop"/g].map((form) => xml.match(form)!.length);
    expect(starts).toBe(stops);
  });

  test("a pick-up is a bar that is not counted, beamed as the end of one", () => {
    const xml = written("1/8 G4 | 3/4 C4 1/4 -", { "pick-up": "1/8 note" });
    expect(xml).toContain('<measure number="0" implicit="yes">');
    expect(drawn(xml)).toEqual(["eighth", "half.", "quarter r"]);
  });

  test("chord symbols are moved with the notes and stand where they are played", () => {
    const xml = written(
      "1/2 C4 D4",
      { chords: "Cmaj7 Bb7/D" },
      { reader: { instrument: INSTRUMENTS.trumpet!, octave: 0, pitch: "transposed" } },
    );
    expect(xml).toContain('<root><root-step>D</root-step></root><kind text="maj7">major-seventh</kind>');
    expect(xml).toContain(
      '<root><root-step>C</root-step></root><kind text="7">dominant</kind><bass><bass-step>E</bass-step></bass>',
    );
    const within = written("1/1 C4", { chords: "C G7" });
    expect(within).toContain('<kind text="7">dominant</kind><offset>2</offset>');
  });

  test.each([
    ["N.C.", '<kind text="N.C.">none</kind>'],
    ["Dm7b5", '<kind text="m7b5">half-diminished</kind>'],
    ["F#dim7", "<root-alter>1</root-alter>"],
    ["G7b9", "<degree-value>9</degree-value>"],
    ["Csus4", '<kind text="sus4">suspended-fourth</kind>'],
    ["C6/9", '<kind text="6/9">other</kind>'],
    ["Ebm(maj7)", '<kind text="m(maj7)">major-minor</kind>'],
    ["C+", '<kind text="+">augmented</kind>'],
  ])("the chord symbol %s is written with its kind", (text, part) =>
    expect(harmony(text, 0).replaceAll("\n", "")).toContain(part),
  );

  test("percussion stands on a staff of its own clef, each voice with its General MIDI key counted from 1", () => {
    const xml = take("half-bar", { staves: "every" });
    expect(xml).toContain("<sign>percussion</sign>");
    expect(xml).toMatch(/<instrument-name>kick<\/instrument-name>/);
    expect(xml).toContain("<midi-unpitched>37</midi-unpitched>");
  });

  test("names with signs of XML, and characters XML cannot hold, do no harm", () => {
    const page = { ...pageOf({ meter: bar44[0]!.meter, bars: bar44, notes: [] }), title: 'a<b & "c" \u0000\ud800' };
    const xml = must(musicXmlOf(page));
    expect(xml).toContain("<work-title>a&lt;b &amp; &quot;c&quot; \ufffd\ufffd</work-title>");
    if (schemaIsThere) expect(schemaComplaints(xml)).toEqual([]);
  });
});

describe("takePage()", () => {
  test("writes the student's part where the mix leaves it out", () => {
    const drill = drillOf(jetty({ tolerance: {}, mixes: { play: { lead: "off" } } }));
    expect(takePage(rungs(drill).at(0), { staves: "student" }).staves[0]!.notes.length).toBeGreaterThan(0);
  });

  test("begins with the pick-up, which sounds again at the end of each phrase", () => {
    const drill = drillOf(jetty({ pattern: "shuffle", tolerance: {}, dropout: undefined, variant: undefined }));
    const rung = rungs(drill).at(0);
    const xml = must(musicXmlOf(takePage(rung, { staves: "student" })));
    const own = writtenScore(rung).parts.find(({ student }) => student)!;
    const positions = own.notes.map(({ position }) => fractionText(add(exactly(position), fraction(1, 4))));
    expect(walkedNotes(xml, "P1").map(({ position }) => position)).toEqual(positions);
  });

  test("leaves out parts that the mix turns off", () => {
    const drill = drillOf(jetty({ tolerance: {}, mixes: { alone: { bass: "off" } } }));
    const names = takePage(rungs(drill).at(0), { staves: "every" }).staves.map(({ name }) => name);
    expect(names).toEqual(["lead", "kit"]);
  });

  test("is in the key of the rung", () => {
    const drill = drillOf(jetty({ tolerance: {}, ladders: [{ key: ["D dorian", "F dorian"] }] }));
    expect(takePage(rungs(drill).at(1), { staves: "student" }).key.tonic).toEqual({ letter: "F", alter: 0 });
    expect(takePage(rungs(drill).at(1), { staves: "student" }).chords[0]!.text).toBe("Fm7");
  });

  test("throws for a mix the drill does not have, and a part or variant the pattern does not", () => {
    const drill = drillOf(jetty({ tolerance: {} }));
    expect(() => takePage(rungs(drill).at(0), { staves: "student", mix: "nothing" })).toThrow(RangeError);
    expect(() => riffPage(drill.pattern, { part: "horns" })).toThrow(RangeError);
    expect(() => riffPage(drill.pattern, { part: "lead", variant: "x" })).toThrow(RangeError);
  });
});
