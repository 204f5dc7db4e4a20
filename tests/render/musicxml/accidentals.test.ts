import { describe, expect, test } from "vitest";
import { INSTRUMENTS } from "../../../lib/pattern/index.js";
import { notesIn, written } from "./shorthand.js";

const SIGNS: Readonly<Record<string, string>> = {
  ...{ "flat-flat": "bb", flat: "b", natural: "n", sharp: "#", "double-sharp": "##" },
};

/** Each note's letter with what is printed before it: "#F", "(n)F" for a courtesy accidental, "F". */
function printed(notes: string, document: Parameters<typeof written>[1] = {}, options = {}): string {
  return notesIn(written(notes, document, options))
    .map((note) => {
      const [, courtesy, name] = /<accidental( cautionary="yes" parentheses="yes")?>(.*?)</.exec(note) ?? [];
      const sign = name === undefined ? "" : SIGNS[name]!;
      return `${courtesy ? `(${sign})` : sign}${/<step>(.)</.exec(note)?.[1] ?? "-"}`;
    })
    .join(" ");
}

// The rules are common practice, worked out by hand here.
describe("accidentals", () => {
  test("stand where the signature says something else, and a natural against it", () => {
    expect(printed("1/4 F4 F#4 Bb4 Db5")).toBe("F #F bB bD");
    expect(printed("1/4 F#4 F4 C#5 C5", { key: "D major" })).toBe("F nF C nC");
    expect(printed("1/4 Bb4 B4 Eb5 E5", { key: "Eb major" })).toBe("B nB E nE");
  });

  test("hold to the end of the bar, on their own line only, until another stands there", () => {
    expect(printed("1/4 F#4 F#4 F#5 F#4")).toBe("#F F #F F");
    expect(printed("1/4 F#4 F4 F4 F#4")).toBe("#F nF F #F");
    expect(printed("1/1 F#4 | F#4", { bars: 2 })).toBe("#F #F");
  });

  test("are not repeated on a note tied on, and stand anew on the one after it", () => {
    expect(printed("1/2 F#4 F#4 | tie F#4", { bars: 2 })).toBe("#F F F #F");
    expect(printed("1/1 F#4 | 1/2 tie F4", { bars: 2 })).toBe("#F F (n)F");
    expect(printed("1/1 F#4 | tie | 1/2 tie F#4", { bars: 3 })).toBe("#F F F #F");
  });

  test("remind in the bar after, once, and not in the one after that", () => {
    expect(printed("1/1 F#4 | 1/2 F4 F4 | 1/1 F4", { bars: 3 })).toBe("#F (n)F F F");
    expect(printed("1/1 F#4 | G4 | F4", { bars: 3 })).toBe("#F G F");
    expect(printed("1/2 F#4 F4 | 1/1 F4", { bars: 2 })).toBe("#F nF F");
    expect(printed("1/1 F4 | F#4", { bars: 2, key: "G major" })).toBe("nF (#)F");
  });

  test("remind at another octave in the same bar", () => {
    expect(printed("1/4 F#4 F5 F#4 F5")).toBe("#F (n)F F F");
    expect(printed("1/4 F4 F#5 F4 F4")).toBe("F #F (n)F F");
    expect(printed("1/1 F#4+F5")).toBe("#F (n)F");
  });

  test("stand on both of two notes together on one line, and on the next one there", () => {
    expect(printed("1/2 F4+F#4 1/4 F4 F4")).toBe("nF #F nF F");
  });

  test("are double where the pitch is, and single again after it", () => {
    expect(printed("1/4 F##4 F#4 Gbb4 Gb4")).toBe("##F #F bbG bG");
  });

  test("follow the key and pitches that a player reads", () => {
    const reader = (name: string) => ({ reader: { instrument: INSTRUMENTS[name]!, octave: 0, pitch: "transposed" } });
    const line = "1/4 F4 F#4 Bb4 Db5";
    // A trumpet reads a major second up in D major: G G# C natural Eb; an alto saxophone a major sixth in A major: D D# G natural Bb.
    expect(printed(line, {}, reader("trumpet"))).toBe("G #G nC bE");
    expect(printed(line, {}, reader("alto saxophone"))).toBe("D #D nG bB");
    expect(printed(line, {}, reader("horn"))).toBe("C #C nF bA");
  });
});
