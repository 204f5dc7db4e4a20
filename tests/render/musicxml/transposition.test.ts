import { describe, expect, test } from "vitest";
import { fraction } from "../../../lib/base/index.js";
import { INSTRUMENTS, parsePitch as readPitch, transposePitch } from "../../../lib/pattern/index.js";
import { musicXmlOf } from "../../../lib/render/index.js";
import { SEMITONES_SOUNDING } from "../../reference/semitonesSounding.js";
import { must } from "../../time/shorthand.js";
import { pageOf } from "../riffs.js";
import { bar44, written } from "./shorthand.js";
import { walkedNotes } from "./walk.js";

describe("transposition", () => {
  test.each(SEMITONES_SOUNDING)("a written C5 for %s sounds %d semitones away", (name, semitones) => {
    const concert = transposePitch(must(readPitch("C5")), { diatonic: 0, chromatic: 0 });
    const instrument = INSTRUMENTS[name]!;
    const sounding = transposePitch(concert, instrument.transposition);
    const notes = [{ position: fraction(0), length: fraction(1), pitch: sounding, accent: false }];
    const reader = { instrument, octave: 0, pitch: "transposed" as const };
    const xml = must(musicXmlOf(pageOf({ meter: bar44[0]!.meter, bars: bar44, notes }, { reader }))).replaceAll(
      "\n",
      "",
    );
    expect(xml).toContain("<pitch><step>C</step><octave>5</octave></pitch>");
    const element = /<transpose>(.*?)<\/transpose>/.exec(xml)![1]!;
    const number = (tag: string): number => Number(new RegExp(`<${tag}>(.*?)</${tag}>`).exec(element)?.[1] ?? 0);
    expect(number("chromatic") + 12 * number("octave-change")).toBe(semitones);
    // `chromatic` and `diatonic` leave octaves out (MusicXML 4.0).
    expect(Math.abs(number("chromatic"))).toBeLessThan(12);
  });

  test("a tenor saxophone has diatonic -1, chromatic -2, octave-change -1 (computed from MusicXML 4.0)", () => {
    const reader = { instrument: INSTRUMENTS["tenor saxophone"]!, octave: 0, pitch: "transposed" as const };
    expect(written("1/1 C4", {}, { reader })).toContain(
      "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change></transpose>",
    );
  });

  test("moves the signature: concert Bb major is C major for trumpet, G major for alto saxophone, F major for horn", () => {
    const fifths = (name: string): string | undefined => {
      const reader = { instrument: INSTRUMENTS[name]!, octave: 0, pitch: "transposed" as const };
      return /<fifths>(.*?)<\/fifths>/.exec(written("1/1 C4", { key: "Bb major" }, { reader }))?.[1];
    };
    expect([fifths("trumpet"), fifths("alto saxophone"), fifths("horn"), fifths("flute")]).toEqual([
      "0",
      "1",
      "-1",
      "-2",
    ]);
  });

  test("writes a key of seven signs or more as its neighbour: concert B major is Ab major for alto saxophone", () => {
    const reader = { instrument: INSTRUMENTS["alto saxophone"]!, octave: 0, pitch: "transposed" as const };
    const xml = written("1/2 B4 D#5", { key: "B major" }, { reader });
    expect(xml).toContain("<fifths>-4</fifths>");
    expect(xml).toContain("<step>A</step><alter>-1</alter><octave>5</octave>");
    expect(walkedNotes(xml, "P1").map(({ sounds }) => sounds)).toEqual([71, 75]);
  });

  test("keeps whole octaves only in a score at concert pitch", () => {
    const concert = (name: string): string =>
      written("1/1 C3", {}, { reader: { instrument: INSTRUMENTS[name]!, octave: 0, pitch: "concert" } });
    expect(concert("double bass")).toContain("<octave-change>-1</octave-change>");
    expect(concert("trumpet")).not.toContain("<transpose>");
  });

  test("shifts octaves for a player whose instrument lies lower", () => {
    const xml = written("1/1 C4", {}, { reader: { instrument: INSTRUMENTS.tuba!, octave: -2, pitch: "transposed" } });
    expect(xml).toContain("<step>C</step><octave>2</octave>");
    expect(xml).toContain("<sign>F</sign>");
  });
});
