import { describe, expect, test } from "vitest";
import { fractionText, problemsIn } from "../../../lib/base/index.js";
import { type MusicXmlNote, readMusicXml } from "../../../lib/formats/index.js";
import { meterText } from "../../../lib/time/index.js";
import { must } from "../../time/shorthand.js";
import { worded } from "../../words/worded.js";
import { ending, FOUR_FOUR, note, repeat, rest, score } from "./musicXmlText.js";

const part = (text: string) => must(readMusicXml(text)).parts[0]!;
const texts = (notes: readonly MusicXmlNote[]): string[] =>
  notes.map((n) => `${fractionText(n.position)} ${n.written?.letter}${n.written?.octave} ${fractionText(n.length)}`);
const codes = (text: string | Uint8Array): string[] => worded(readMusicXml(text)).map((p) => p.code);

describe("readMusicXml() reads", () => {
  test("durations by divisions, tuplets exactly, rests, and changes of divisions", () => {
    const first = note("D4", 12) + note("E4", 4) + note("F4", 4) + note("G4", 4) + rest(24);
    const second = `<attributes><divisions>1</divisions></attributes>${note("A4", 4)}`;
    expect(texts(part(score(first, second)).notes)).toEqual([
      "0 D4 1/4",
      "1/4 E4 1/12",
      "1/3 F4 1/12",
      "5/12 G4 1/12",
      "1 A4 1",
    ]);
  });

  test("chords, voices with backup and forward", () => {
    const bar = `${note("D4", 48)}${note("F4", 48, "<chord/>")}<backup><duration>48</duration></backup><forward><duration>24</duration></forward>${note("A4", 24, "<voice>2</voice>")}`;
    const read = part(score(bar));
    expect(texts(read.notes)).toEqual(["0 D4 1", "0 F4 1", "1/2 A4 1/2"]);
    expect(read.notes.map((n) => n.chord)).toEqual([false, true, false]);
    expect(read.advice.map((r) => r.problem.code)).toEqual(["MUSICXML_SEVERAL_VOICES"]);
  });

  test("ties, joined over bar lines, and a tie that leads nowhere is said", () => {
    const [start, stop] = ['<tie type="start"/>', '<tie type="stop"/>'];
    const read = part(score(rest(36) + note("D4", 12, start), note("D4", 24, stop + start) + note("E4", 24, start)));
    expect(texts(read.notes)).toEqual(["3/4 D4 3/4", "3/2 E4 1/2"]);
    expect(read.advice.map((r) => [r.bar, r.problem.code])).toEqual([
      [0, "MUSICXML_TIE_NOT_ENDED"],
      [1, "MUSICXML_TIE_NOT_ENDED"],
    ]);
  });

  test("articulations, and slurs from note to note: over bar lines, ties, chords, in voices, several at once", () => {
    const signs = (names: string): string =>
      `<notations><articulations>${names
        .split(" ")
        .map((name) => `<${name}/>`)
        .join("")}</articulations></notations>`;
    const slur = (...ends: readonly string[]): string =>
      `<notations>${ends.map((end) => `<slur type="${end.split(" ")[0]}" number="${end.split(" ")[1] ?? 1}"/>`).join("")}</notations>`;
    const marks = (text: string): string[] =>
      part(text).notes.map((n) =>
        ["accent", "short", "tenuto", "scoop", "fall", "slurred"].filter((mark) => n[mark as "fall"]).join(" "),
      );
    const four = ["accent staccatissimo", "tenuto scoop", "detached-legato", "falloff"];
    expect(marks(score(four.map((names, i) => note(["D4", "E4", "F4", "G4"][i]!, 12, signs(names))).join("")))).toEqual(
      [...["accent short", "tenuto scoop", "short tenuto", "fall"]],
    );
    const voice = (number: number): string => `<voice>${number}</voice>`;
    // One slur begins where another ends; the tied note that ends the second one is slurred no further.
    const first =
      note("D4", 24, slur("start")) + note("E4", 12, slur("start 1", "stop 1")) + note("F4", 12, '<tie type="start"/>');
    const second = note("F4", 24, `<tie type="stop"/>${slur("stop")}`) + note("G4", 24);
    expect(marks(score(first, second))).toEqual(["slurred", "slurred", "", ""]);
    const chord =
      note("D4", 24, slur("start 3")) +
      note("F4", 24, "<chord/>") +
      note("E4", 24) +
      note("G4", 24, `<chord/>${slur("stop 3")}`);
    expect(marks(score(chord))).toEqual(["slurred", "slurred", "", ""]);
    const twoVoices = `${note("D5", 24, voice(1) + slur("start"))}${note("E5", 24, voice(1) + slur("stop"))}<backup><duration>48</duration></backup>${note("D4", 24, voice(2))}${note("E4", 24, voice(2))}`;
    expect(marks(score(twoVoices))).toEqual(["slurred", "", "", ""]);
  });

  test("a tie to the same key under another name, as one note of the first name", () => {
    const flat = "<note><pitch><step>F</step><alter>-1</alter><octave>4</octave></pitch><duration>24</duration>";
    const read = part(
      score(rest(24) + note("E4", 24, '<tie type="start"/>'), `${flat}<tie type="stop"/></note>${rest(24)}`),
    );
    expect(texts(read.notes)).toEqual(["1/2 E4 1"]);
    expect(read.advice).toEqual([]);
  });

  test("transposition with its octaves, from where it changes", () => {
    const transpose = (inner: string) => `<attributes><transpose>${inner}</transpose></attributes>`;
    // Tenor saxophone: diatonic -1, chromatic -2, octave-change -1 (MusicXML 4.0: octaves are left out of the first two).
    const tenor = transpose("<diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change>");
    const read = part(
      score(FOUR_FOUR + tenor + note("D4", 48), transpose("<chromatic>-9</chromatic>") + note("D4", 48)),
    );
    expect(read.notes.map((n) => n.transposition)).toEqual([
      { diatonic: -8, chromatic: -14 },
      { diatonic: -5, chromatic: -9 },
    ]);
  });

  test("meters: additive, mixed, and none", () => {
    const time = (inner: string) => `<attributes><divisions>12</divisions><time>${inner}</time></attributes>`;
    const meters = (inner: string) => part(score(time(inner) + rest(6))).bars.map((b) => b.meter && meterText(b.meter));
    expect(meters("<beats>3+2</beats><beat-type>8</beat-type>")).toEqual(["3+2/8"]);
    expect(meters("<beats>3</beats><beat-type>8</beat-type><beats>2</beats><beat-type>4</beat-type>")).toEqual([
      "3+4/8",
    ]);
    expect(meters("<senza-misura/>")).toEqual([undefined]);
  });

  test("a pick-up as a bar of its own length that is not counted", () => {
    const read = part(
      score(`<measure number="0" implicit="yes">${FOUR_FOUR}${note("A3", 6)}</measure>`, note("D4", 48)),
    );
    expect(read.bars.map((b) => [b.number, fractionText(b.length), b.implicit])).toEqual([
      ["0", "1/8", true],
      ["2", "1", false],
    ]);
    expect(texts(read.notes)).toEqual(["0 A3 1/8", "1/8 D4 1"]);
  });

  test.each([
    ["a plain repeat", [`${rest(48)}`, `${rest(48)}${repeat("backward")}`, rest(48)], "1 2 1 2 3"],
    ["a forward sign", [rest(48), `${repeat("forward")}${rest(48)}`, `${rest(48)}${repeat("backward")}`], "1 2 3 2 3"],
    ["three times", [`${rest(48)}${repeat("backward", 3)}`, rest(48)], "1 1 1 2"],
    [
      "two endings",
      [
        rest(48),
        `${ending("1", "start")}${rest(48)}${ending("1", "stop")}${repeat("backward")}`,
        `${ending("2", "start")}${rest(48)}${ending("2", "discontinue")}`,
        rest(48),
      ],
      "1 2 1 3 4",
    ],
    [
      "an ending played twice",
      [
        rest(48),
        `${ending("1, 2", "start")}${rest(48)}${ending("1, 2", "stop")}${repeat("backward")}`,
        `${ending("3", "start")}${rest(48)}${ending("3", "stop")}`,
      ],
      "1 2 1 2 1 3",
    ],
    [
      "a first ending alone",
      [
        rest(48),
        `${ending("1", "start")}${rest(48)}${ending("1", "stop")}${repeat("backward")}`,
        rest(48),
        `${rest(48)}${repeat("backward")}`,
      ],
      "1 2 1 3 4 3 4",
    ],
  ])("%s", (_, measures, order) =>
    expect(
      part(score(...measures))
        .bars.map((b) => b.number)
        .join(" "),
    ).toBe(order),
  );

  test("unpitched notes by the General MIDI key of their instrument, counted from 1", () => {
    const drum = (id: string) => `<note><unpitched/><duration>24</duration><instrument id="${id}"/></note>`;
    const instruments =
      '<midi-instrument id="k"><midi-unpitched>37</midi-unpitched></midi-instrument><midi-instrument id="s"><midi-unpitched>39</midi-unpitched></midi-instrument>';
    const text = score(drum("k") + drum("s")).replace("</score-part>", `${instruments}</score-part>`);
    expect(part(text).notes.map((n) => n.percussion)).toEqual([36, 38]);
  });

  test("accents, and UTF-16", () => {
    const text = score(note("D4", 48, "<notations><articulations><accent/></articulations></notations>"));
    expect(part(text).notes[0]!.accent).toBe(true);
    const wide = new Uint8Array(2 + 2 * text.length);
    wide.set([0xff, 0xfe]);
    for (let i = 0; i < text.length; i++) wide[2 + 2 * i] = text.charCodeAt(i);
    expect(must(readMusicXml(wide)).parts).toHaveLength(1);
  });
});

describe("readMusicXml() and chords", () => {
  test("take an accent on one note of a chord for one on all of them", () => {
    const accent = "<notations><articulations><accent/></articulations></notations>";
    const chord = note("E4", 24, accent).replace("<note>", "<note><chord/>");
    const text = score(note("C4", 24) + chord + note("D4", 24));
    expect(part(text).notes.map((each) => each.accent)).toEqual([true, true, false]);
  });
});

describe("readMusicXml() says what it leaves out, with bar and part", () => {
  test.each([
    [
      "grace notes",
      `<note><grace/><pitch><step>D</step><octave>4</octave></pitch></note>${note("D4", 48)}`,
      "MUSICXML_GRACE_NOTE",
    ],
    [
      "cue notes",
      `<note><cue/><pitch><step>D</step><octave>4</octave></pitch><duration>48</duration></note>`,
      "MUSICXML_CUE_NOTE",
    ],
    [
      "missing durations",
      `<note><pitch><step>D</step><octave>4</octave></pitch></note>${rest(48)}`,
      "MUSICXML_DURATION_MISSING",
    ],
    ["negative durations", `${note("D4", -4)}${rest(48)}`, "MUSICXML_DURATION_MISSING"],
    ["microtones", note("D4", 48).replace("<octave>", "<alter>0.5</alter><octave>"), "MUSICXML_MICROTONE"],
    ["unknown pitches", note("D4", 48).replace("<step>D", "<step>H"), "MUSICXML_PITCH_NOT_READ"],
    ["bars of the wrong length", note("D4", 24), "MUSICXML_BAR_LENGTH_DIFFERS"],
    ["jumps", `<sound dacapo="yes"/>${note("D4", 48)}`, "MUSICXML_JUMP_NOT_FOLLOWED"],
    ["a backup too far", `${note("D4", 48)}<backup><duration>60</duration></backup>`, "MUSICXML_BACKUP_TOO_FAR"],
    ["an ending without number", `${ending("x", "start")}${note("D4", 48)}`, "MUSICXML_ENDING_NOT_READ"],
  ])("%s", (_, bar, code) => {
    const { advice } = part(score(rest(48), bar));
    expect(advice.map((r) => [r.bar, r.problem.code])).toEqual([[1, code]]);
    expect(advice[0]!.problem.message).toContain("(bar 2 of Lead)");
    expect(codes(score(rest(48), bar))).toEqual([code]);
  });

  test.each(["<attributes><key/></attributes>", "<attributes><divisions>0</divisions></attributes>"])(
    "durations after %s",
    (attributes) => {
      expect(part(score(attributes + note("D4", 4))).advice.map((r) => [r.problem.code, r.problem.severity])).toEqual([
        ["MUSICXML_DIVISIONS_MISSING", "error"],
      ]);
    },
  );
});

describe("readMusicXml() refuses", () => {
  test.each([
    ["text that is no XML", "1/4 D4 E4", "MUSICXML_NOT_XML"],
    ["a tag that is not closed", score(rest(48)).replace("</part>", ""), "MUSICXML_NOT_XML"],
    ["another document", "<html><body/></html>", "MUSICXML_NOT_PARTWISE"],
    ["bars in time order", "<score-timewise><measure/></score-timewise>", "MUSICXML_NOT_PARTWISE"],
    ["a score without parts", "<score-partwise/>", "MUSICXML_WITHOUT_PARTS"],
    ["compressed files", Uint8Array.of(0x50, 0x4b, 3, 4), "MUSICXML_COMPRESSED"],
    ["deep nesting", "<score-partwise>".repeat(1000), "MUSICXML_TOO_LARGE"],
    ["large files", new Uint8Array(9 * 2 ** 20), "MUSICXML_TOO_LARGE"],
    ["repeats beyond measure", score(`${note("D4", 1).repeat(200)}${repeat("backward", 999)}`), "MUSICXML_TOO_LARGE"],
    [
      "durations without a common divisor",
      score(...Array.from({ length: 30 }, (_, i) => unlike(99_991 + 2 * i))),
      "MUSICXML_TIMES_TOO_FINE",
    ],
  ])("%s", (_, text, code) => {
    expect(readMusicXml(text).ok).toBe(false);
    expect(codes(text)).toEqual([code]);
  });

  test("entities: none is expanded and nothing is fetched", () => {
    const types =
      '<!DOCTYPE score-partwise [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;"><!ENTITY f SYSTEM "file:///etc/passwd">]>';
    const named = (name: string) => types + score(rest(48)).slice(21).replace("Lead", name);
    expect(codes(named("&b;"))).toEqual(["MUSICXML_NOT_XML"]);
    expect(codes(named("&f;"))).toEqual(["MUSICXML_NOT_XML"]);
    expect(must(readMusicXml(named("A &amp; B"))).parts[0]!.name).toBe("A & B");
  });

  test("a place in the text", () => {
    expect(problemsIn(readMusicXml("<score-partwise>\n  </part>"))[0]!.where).toMatchObject({ line: 2 });
  });
});

/** A bar of one note whose divisions share no factor with those of its neighbours. */
function unlike(divisions: number): string {
  return `<attributes><divisions>${divisions}</divisions></attributes>${note("D4", 7)}`;
}
