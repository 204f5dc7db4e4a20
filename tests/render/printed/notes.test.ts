import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { fraction, ZERO } from "../../../lib/base/index.js";
import { parsePitch } from "../../../lib/pattern/index.js";
import type { Engraver } from "../../../lib/render/sheet/index.js";
import { parseMeter } from "../../../lib/time/index.js";
import { sample } from "../../samples.js";
import { must } from "../../time/shorthand.js";
import { openEngraver } from "../sheet/material.js";
import { chordMoved, inSigns } from "./chordText.js";
import { type Form, formOf, formsBy, PITCHED, readerOf } from "./formsBy.js";
import { glyphsAmong, inkOf } from "./ink.js";
import { readAs } from "./pagesTable.js";
import { GLYPHS, type Printed, printSheet, riffsOn } from "./printedSheet.js";
import { drillOf, fifthsOf, legiblePrintings, type Printing } from "./randomRiffs.js";
import { type Played, readEngraved } from "./readEngraved.js";

/** How many random riffs are printed and read. */
const SHEETS = sample({ suite: 30, proof: 1000 });
/** Milliseconds for all of them: several times what two slow cores take. */
const LONG = 60_000 + 4_000 * SHEETS;
/** The size in which the chords of a sheet are set, in points; nothing else over a staff is as large. */
const CHORD_SIZE = 12.5;

let engraver: Engraver;
beforeAll(async () => {
  engraver = await openEngraver();
});

const place = (position: number): number => Math.round(position * 1e8) / 1e8;

function textOf({ letter, octave, alter, from, to, isAccented, isGhost, loudness }: Played): string {
  const signs = (alter < 0 ? "b" : "#").repeat(Math.abs(alter));
  const name = `${letter}${signs}${octave}${isAccented ? "!" : ""}`;
  return `${place(from)} to ${place(to)}: ${loudness ?? ""} ${isGhost ? `(${name})` : name}`;
}

/** The sheet, read back, has each form's notes and chords for a player, and the engraver's ink. */
function expectPart({ svg, engraved }: Printed, forms: readonly Form[], player: Printing["player"]): void {
  const systems = riffsOn(
    svg,
    forms.map(({ bars }) => bars.length),
  );
  for (const [i, { key, notes, bars, slashes, chords }] of forms.entries()) {
    const { written, root } = readAs(fifthsOf(key), readerOf(player));
    const start = bars[0]!.from;
    const read = readEngraved(
      engraved[i]!,
      bars.map(({ from, to }) => to - from),
    );
    const wanted = notes.map((note): Played => {
      // An accent on one note of a chord is one on the chord.
      const isAccented = notes.some(({ from, to, accent }) => accent && from === note.from && to === note.to);
      // Where nothing is said in a riff that says it elsewhere, it is mf; in other riffs nothing is said.
      const loudness = notes.some((each) => each.loudness !== undefined) ? (note.loudness ?? "mf") : undefined;
      const place = { from: note.from - start, to: note.to - start };
      return { ...written(note), ...place, isAccented, isGhost: note.ghost === true, loudness };
    });
    expect(read.notes.map(textOf).sort()).toEqual(wanted.map(textOf).sort());
    const texts = systems[i]!.flatMap((system) => system.texts.filter(({ size }) => size === CHORD_SIZE));
    const names = chords.map(({ text }) => inSigns(chordMoved(text, root)));
    expect(texts.map(({ text }) => text).join("")).toBe(names.join(""));
    expect(read.chords).toHaveLength(chords.length);
    for (const [k, { from }] of chords.entries()) {
      const isOverSymbol = read.begins.some((begin) => Math.abs(begin + start - from) < 1e-6);
      if (isOverSymbol) expect(place(read.chords[k]! + start), `chord ${k + 1}`).toBe(place(from));
    }
    expect(slashes).toHaveLength(bars.length);
  }
  // What the page shows in the music font is what the engraver drew, glyph for glyph. A whole rest hangs where a half rest stands: one shape.
  const shape = (code: string): string => (code === "E4E4" ? "E4E3" : code);
  const drawn = engraved.flatMap((each) =>
    [...each.matchAll(/<use xlink:href="#(E[0-9A-F]{3})-/g)].map(([, code]) => shape(code!)),
  );
  const shown = svg.flatMap((page) => glyphsAmong(inkOf(page).ink, GLYPHS)).map(({ code }) => shape(code));
  expect(shown.sort()).toEqual(drawn.sort());
}

describe("what is printed, read back", () => {
  test(
    `is the part note for note: ${SHEETS} random riffs over all keys and players`,
    async () => {
      await fc.assert(
        fc.asyncProperty(legiblePrintings, async (printing) => {
          const printed = await printSheet(drillOf(printing), printing.player, engraver);
          expectPart(printed, [formOf(printing)], printing.player);
        }),
        { numRuns: SHEETS, endOnFailure: true },
      );
    },
    LONG,
  );

  test("has its chord symbol over a ghost chord whose head on the other side of the stem stands in parentheses", async () => {
    const [meter, length] = [must(parseMeter("1/4")), fraction(1, 4)];
    const bar = { position: ZERO, length, meter, number: "1", isPickup: false };
    const notes = ["F5", "E#5"].map((name) => {
      return { position: ZERO, length, pitch: must(parsePitch(name)), accent: false, ghost: true } as const;
    });
    const chords = [{ position: ZERO, length, text: "Bbmaj7" }];
    const printing: Printing = { riff: { meter, bars: [bar], notes }, key: "C major", chords, player: undefined };
    expectPart(await printSheet(drillOf(printing), undefined, engraver), [formOf(printing)], undefined);
  });

  test.each(PITCHED.map((each) => [each.name, each] as const))(
    "is the part note for note, in every form that a rung has: %s",
    async (_, { drill, player }) => {
      expectPart(await printSheet(drill, player, engraver), formsBy(drill), player);
    },
  );
});
