import { beforeAll, describe, expect, test } from "vitest";
import type { Result } from "../../../lib/base/index.js";
import type { Engraver } from "../../../lib/render/sheet/index.js";
import { layOutOverview } from "../../../lib/render/sheet/layOutOverview.js";
import { type LaidOutSheet, layOutSheet } from "../../../lib/render/sheet/layOutSheet.js";
import type { SheetReader } from "../../../lib/render/sheet/sheetReader.js";
import type { SheetWords } from "../../../lib/render/sheet/words.js";
import { sheetInEnglish } from "../../../lib/words/index.js";
import { markedWords, unmarked } from "../../words/marked.js";
import { casesOf, course, FONTS, openEngraver, type SheetCase } from "./material.js";

let engraver: Engraver;
beforeAll(async () => {
  engraver = await openEngraver();
});

/** A course whose own words all end in -u, so that no word of a sheet can hide among them. */
const NAMES = course(`
curriculum: ternu
edition: 1.0.0
title: Ternu
players: [pipu]
instruments:
  pipu: { sounds: major second lower, lowest: C2, highest: C7, clef: treble }
patterns:
  ternu:
    meter: 2/2
    bars: 4
    key: D dorian
    tuning: 442 Hz
    swing: 2:1 1/4 note
    parts:
      kitu: { voices: { hat: "x-x- | ..." } }
      bassu: { instrument: double bass, notes: "1/1 D2 | ..." }
      leadu:
        variants:
          plainu: { notes: "1/4 D4 E4 F4 G4 | ..." }
          busyu: { notes: "1/8 D4 E4 F4 G4 1/2 D4 | ..." }
  gullu:
    meter: 4/4
    bars: 4
    key: D dorian
    swing: 3:2 1/8 note
    parts:
      kitu: { voices: { hat: "x-x-x-x- | ..." } }
      leadu: { notes: "1/4 D4 E4 F4 G4 | ..." }
  eideru:
    meter: 4/4
    bars: 4
    key: D dorian
    swing: 2:1 1/8 note
    parts:
      kitu: { voices: { hat: "x-x-x-x- | ..." } }
      bassu: { notes: "1/1 D2 | ..." }
      leadu: { notes: "1/4 D4 E4 F4 G4 | ..." }
  fineu:
    meter: 4/4
    bars: 4
    key: D dorian
    swing: 3:2 1/16 note
    parts:
      kitu: { voices: { hat: "x-x-x-x- | ..." } }
      leadu: { notes: "1/4 D4 E4 F4 G4 | ..." }
drills:
  swingu:
    pattern: fineu
    student: leadu
    tempo: 80
    mixes: { playu: { leadu: off } }
    tolerance: { steadiness: 40 ms }
    gate: { in-a-row: 2 }
  partu:
    pattern: ternu
    student: leadu
    variant: busyu
    beat: 1/2 note
    phrases: 2
    dropout: { length: 5/4 note }
    ladders:
      - parts: [[kitu], [bassu, kitu]]
    tempo: 60
    mixes: { playu: { leadu: off } }
    tolerance: { drift: 80 ms, landing: 90.5 ms }
    gate: { in-a-row: 1 }
    go-back: { after: 1, by: 2 rungs }
  mixu:
    pattern: ternu
    student: leadu
    beat: 1/2 note
    variant: plainu
    tempo: 60
    count-in: 1 1/2 bars
    outro: none
    mixes: { playu: { leadu: off }, solou: { bassu: off } }
    tolerance: { steadiness: 40 ms }
    gate: { clean: 3, of: 3 }
  climbu:
    pattern: gullu
    student: leadu
    dropout: {}
    ladders:
      - dropout: { from: 1/8 note, to: 2 bars, by: 1/8 note }
      - tempo: { from: 60, to: 100, by: 2 }
      - key: [D dorian, F dorian, G dorian, A dorian, C dorian, E dorian, B dorian, Bb dorian]
    mixes: { playu: { leadu: off } }
    tolerance: { drift: 20 %, landing: 140 ms, steadiness: 40 ms }
    gate: { clean: 3, of: 4 }
    go-back: { after: 3 }
  moveu:
    pattern: eideru
    student: leadu
    dropout: { at: random, seed: 11, parts: [kitu] }
    ladders:
      - dropout: [1/2 bar, 1 bar]
    beat: 1/32 note
    tempo: 300
    mixes: { playu: { leadu: off }, heareu: { leadu: plays } }
    tolerance: { drift: 20 %, landing: 140 ms }
    gate: { sequential: { able: 85 %, unready: 50 % } }
  growu:
    pattern: eideru
    student: leadu
    dropout: { grows: { from: 1/2 bar, by: 1/2 bar, each: 1 phrase }, parts: { grows: [[kitu], [kitu, bassu]] } }
    ladders:
      - grows: [1 bar, 1 1/2 bars]
    tempo: 80
    mixes: { playu: { leadu: off } }
    tolerance: { drift: 20 %, landing: 140 ms, played: 1/2 }
    gate: { in-a-row: 2 }
  riseu:
    pattern: eideru
    student: leadu
    phrases: 4
    count-in: { length: 1 bar, sound: sticks }
    dropout: { length: 1 bar, parts: [kitu] }
    ladders:
      - rise: [none, 2, 4 each 2 phrases]
      - key: [D dorian, D dorian octave higher]
    tempo: 80
    mixes: { playu: { leadu: off } }
    tolerance: { drift: 20 %, landing: 140 ms }
    gate: { in-a-row: 2 }
  liftu:
    pattern: eideru
    student: leadu
    phrases: 4
    dropout: { length: 1 bar, parts: [kitu] }
    rise: 4 each 2 phrases
    tempo: 80
    mixes: { playu: { leadu: off } }
    tolerance: { drift: 20 %, landing: 140 ms }
    gate: { in-a-row: 2 }
  openu:
    pattern: eideru
    student: leadu
    players: []
    dropout: { length: 1 bar, parts: [kitu] }
    open: { scale: D dorian, subdivision: 1/8 note }
    ladders:
      - open: [[], [4], [3, 4]]
      - tempo: { from: 80, to: 96, by: 8 }
    mixes: { playu: { leadu: off } }
    tolerance: { drift: 20 %, landing: 140 ms }
    gate: { in-a-row: 2 }
`);

/** What a sheet shows, text by text, with a sign between. */
function textsOf(
  { drill, player }: Omit<SheetCase, "player"> & { readonly player: SheetReader },
  words: SheetWords,
): string {
  const imprint = { author: "scribu", arranger: "ordinu", copyright: "possessu", licence: "licentu" };
  const options = { paper: "a4", engraver, fonts: FONTS, course: NAMES.title, imprint, words } as const;
  return textsOn(layOutSheet(drill, player, options));
}

function textsOn(sheet: Result<LaidOutSheet>): string {
  if (!sheet.ok) throw new Error(JSON.stringify(sheet.problems));
  const { title, subject, pages } = sheet.value;
  const texts = pages.flatMap((page) => [
    page.title,
    page.description,
    ...page.marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])),
  ]);
  return [title, subject, ...texts].join("\u0001");
}

/** Names of the course, a voice that its count-in names, keys and notes, numbers and signs. */
const DATA = /^\(?(?:\w*u|sticks|[A-G][♭♯]?|dorian|Hz|[\d\p{No}./=♩♪♫♯♭:·…–]*|[A-Z]–[A-Z])[,:)]*$/iu;
const strays = (text: string): readonly string[] => text.split(/[\u0001\s]+/).filter((word) => !DATA.test(word));

function expectMarked(texts: string): void {
  const { outside, names } = unmarked(texts);
  expect(strays(outside)).toEqual([]);
  expect(names.flatMap((name) => strays(name.replaceAll("\u0001", " ")))).toEqual([]);
}

describe("layOutSheet() with words", () => {
  const said = new Set<string>();
  const words: SheetWords = markedWords();
  const noting: SheetWords = {
    ...words,
    say: (key, ...given) => {
      said.add(key);
      return words.say(key, ...given);
    },
  };

  const cases = casesOf(NAMES);
  const open = cases.find(({ drill }) => drill.open !== undefined)!;
  const ofBand = [
    { ...cases[0]!, name: "a score", player: "score" as const },
    { ...cases[0]!, name: "the kit", player: { part: "kitu" } },
    { ...open, name: "a score with open bars", player: "score" as const },
  ];
  test.each([...cases, ...ofBand].map((each) => [each.name, each] as const))(
    "says nothing that bypasses the catalogue: %s",
    (_, each) => expectMarked(textsOf(each, noting)),
  );

  test("says nothing that bypasses the catalogue on the overview of a course", () => {
    expectMarked(textsOn(layOutOverview(NAMES, { paper: "a4", fonts: FONTS, words: noting })));
  });

  test("says everything that the catalogue has for sheets, and names of settings as everywhere", () => {
    const keys = [...Object.keys(sheetInEnglish), "setting.name", "setting.one"];
    expect(keys.filter((key) => !said.has(key))).toEqual([]);
  });
});
