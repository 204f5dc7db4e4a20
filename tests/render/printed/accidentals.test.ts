import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { toNumber } from "../../../lib/base/index.js";
import type { Engraver } from "../../../lib/render/sheet/index.js";
import { openEngraver } from "../sheet/material.js";
import { type Sheet, type Shown, sheetTable } from "./pagesTable.js";
import { drawnByPoppler, hasPoppler, printSheet, riffsOn } from "./printedSheet.js";
import { drillOf, fifthsOf, inNumbers, type Printing, printings } from "./randomRiffs.js";
import type { Head, PrintedSystem } from "./readNotation.js";

/** How many random riffs are printed and read: `SHEETS=1000` reads a thousand. */
const SHEETS = Number(process.env.SHEETS ?? 60);
/** Milliseconds for all of them: several times what two slow cores take. */
const LONG = 60_000 + 4_000 * SHEETS;

let engraver: Engraver;
beforeAll(async () => {
  engraver = await openEngraver();
});

interface Sign {
  readonly letter: string;
  readonly octave: number;
  readonly alter: number;
  readonly sign?: Head["sign"];
}

/** "F4" and how it is printed and read: "#/1", "(0)/0", "/-1". */
const lineOf = ({ letter, octave }: Sign): string => `${letter}${octave}`;
const saysOf = ({ alter, sign }: Sign): string =>
  `${sign === undefined ? "" : sign.isInParentheses ? `(${sign.alter})` : sign.alter}/${alter}`;

/**
 * A bar by its lines and spaces, each with its notes from left to right. The order of notes that begin together on one line is the engraver's:
 * `sizes` says how many of them there are each time, and they are put in order.
 */
function byLine(notes: readonly Sign[], sizes: ReadonlyMap<string, readonly number[]>): readonly string[] {
  return [...new Set(notes.map(lineOf))].sort().map((line) => {
    const all = notes.filter((note) => lineOf(note) === line).map(saysOf);
    const groups = (sizes.get(line) ?? []).map((size) => all.splice(0, size).sort().join(" + "));
    return `${line}: ${[...groups, ...all].join(", ")}`;
  });
}

function sizesOn(notes: readonly Shown[]): ReadonlyMap<string, readonly number[]> {
  const sizes = new Map<string, number[]>();
  const onLine = new Map<string, Shown>();
  for (const note of notes) {
    const last = onLine.get(lineOf(note));
    const counts = sizes.get(lineOf(note)) ?? [];
    if (last !== undefined && Math.abs(last.from - note.from) < 1e-6) counts[counts.length - 1]! += 1;
    else counts.push(1);
    sizes.set(lineOf(note), counts);
    onLine.set(lineOf(note), note);
  }
  return sizes;
}

function tableOf({ riff, key, player }: Printing): Sheet {
  return sheetTable(riff.notes.map(inNumbers), {
    bars: riff.bars.map(({ position, length }) => ({
      from: toNumber(position),
      to: toNumber(position) + toNumber(length),
    })),
    concertFifths: fifthsOf(key),
    reader: { semitones: player?.instrument.transposition.chromatic ?? 0, octave: player?.octave ?? 0 },
  });
}

function expectToShow(riff: readonly PrintedSystem[], table: Sheet): void {
  for (const { fifths } of riff) expect(fifths).toBe(table.fifths);
  const bars = riff.flatMap((system) => system.bars.map(({ heads }) => heads.filter(({ isTied }) => !isTied)));
  const read = bars.map((heads, i) => {
    const notes = heads.map((head) => ({ ...head, alter: head.reads }));
    return byLine(notes, sizesOn(table.bars[i] ?? []));
  });
  expect(read).toEqual(table.bars.map((notes) => byLine(notes, sizesOn(notes))));
}

describe("accidentals read off the page", () => {
  test(
    `stand where the pitches ask for them: ${SHEETS} random riffs over all keys and players, SVG${hasPoppler ? " and PDF" : ""}`,
    async () => {
      await fc.assert(
        fc.asyncProperty(printings, async (printing) => {
          const table = tableOf(printing);
          const printed = await printSheet(drillOf(printing), printing.player, engraver);
          const riffs = riffsOn(printed.svg);
          expect(riffs).toHaveLength(1);
          expectToShow(riffs[0]!, table);
          if (hasPoppler) expectToShow(riffsOn(drawnByPoppler(printed.pdf))[0]!, table);
        }),
        { numRuns: SHEETS, endOnFailure: true },
      );
    },
    LONG,
  );
});
