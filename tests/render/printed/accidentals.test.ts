import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { toNumber } from "../../../lib/base/index.js";
import { type Drill, rungs } from "../../../lib/drill/index.js";
import { keyText } from "../../../lib/pattern/index.js";
import type { Engraver } from "../../../lib/render/sheet/index.js";
import { barLength } from "../../../lib/time/index.js";
import { sample } from "../../samples.js";
import { casesOf, HARD, openEngraver, SHIPPED } from "../sheet/material.js";
import { expectToShow } from "./expectToShow.js";
import { placeOf } from "./fifths.js";
import { inAnotherKey, type Sheet, type Sounded, type Span, sheetTable } from "./pagesTable.js";
import { drawnByPoppler, hasPoppler, printSheet, riffsOn } from "./printedSheet.js";
import { drillOf, fifthsOf, inNumbers, noteOf, type Printing, printings } from "./randomRiffs.js";
import { semitonesOf } from "./semitonesOf.js";

/** How many random riffs are printed and read. */
const SHEETS = sample({ suite: 60, proof: 1000 });
/** Milliseconds for all of them: several times what two slow cores take. */
const LONG = 60_000 + 4_000 * SHEETS;

let engraver: Engraver;
beforeAll(async () => {
  engraver = await openEngraver();
});

function tableOf({ riff, key, player }: Printing): Sheet {
  return sheetTable(riff.notes.map(inNumbers), {
    bars: riff.bars.map(({ position, length }) => ({
      from: toNumber(position),
      to: toNumber(position) + toNumber(length),
    })),
    concertFifths: fifthsOf(key),
    reader: { semitones: semitonesOf(player?.instrument), octave: player?.octave ?? 0 },
  });
}

interface Form {
  readonly key: string;
  readonly notes: readonly Sounded[];
  readonly bars: readonly Span[];
  /** Slashes in each bar. */
  readonly slashes: readonly number[];
}

/** The shapes of a riff that the rungs of a drill have, each once, in the order in which they are met. */
function formsBy(drill: Drill): readonly Form[] {
  const { pattern, student } = drill;
  const all = rungs(drill);
  const own = keyText(pattern.key);
  const met = new Map<string, Form>();
  for (let i = 0; i < all.count; i++) {
    const { variant = "", key = own, open = "none" } = all.at(i).settings;
    const shape = [variant, key, open].join();
    if (met.has(shape)) continue;
    const { variants } = pattern.parts.find(({ name }) => name === student)!;
    const isOpen = new Set(open === "none" ? [] : open.split("+").map(Number));
    const bars = pattern.bars.map(({ position, meter, number }) => {
      const from = toNumber(position);
      return { from, to: from + toNumber(barLength(meter)), slashes: isOpen.has(number) ? beatsIn(meter.groups) : 0 };
    });
    const pickup = toNumber(pattern.pickup);
    const notes = (variants[variant] ?? variants[""])!.map(inNumbers);
    const [to, from] = [key, own].map((text) => placeOf(noteOf(text.split(" ")[0]!)));
    met.set(shape, {
      key,
      notes: notes
        .filter((note) => !bars.some((bar) => bar.slashes > 0 && note.from >= bar.from && note.from < bar.to))
        .map((note) => inAnotherKey(note, to! - from!)),
      bars: [...(pickup > 0 ? [{ from: -pickup, to: 0 }] : []), ...bars],
      slashes: [...(pickup > 0 ? [0] : []), ...bars.map(({ slashes }) => slashes)],
    });
  }
  return [...met.values()];
}

/** A slash for each beat: each group of an additive or compound meter, else each of its notes. */
function beatsIn(groups: readonly number[]): number {
  return groups.length > 1 ? groups.length : groups[0]!;
}

const PITCHED = [...SHIPPED, HARD]
  .flatMap(casesOf)
  .filter(({ drill }) => drill.pattern.parts.find(({ name }) => name === drill.student)!.kind === "pitched");

describe("accidentals read off the page", () => {
  test.each(PITCHED.map((each) => [each.name, each] as const))(
    "stand where the pitches ask for them, in every form that a rung has: %s",
    async (_, { drill, player }) => {
      const forms = formsBy(drill);
      const printed = await printSheet(drill, player, engraver);
      // What one player's PDF shows of the SVG, the others' do.
      const hasPdf = hasPoppler && player === drill.players.at(-1);
      const pages = hasPdf ? [printed.svg, drawnByPoppler(printed.pdf)] : [printed.svg];
      for (const riffs of pages.map(riffsOn)) {
        expect(riffs).toHaveLength(forms.length);
        for (const [i, { key, notes, bars, slashes }] of forms.entries()) {
          const reader = { semitones: semitonesOf(player?.instrument), octave: player?.octave ?? 0 };
          expectToShow(riffs[i]!, sheetTable(notes, { bars, concertFifths: fifthsOf(key), reader }));
          expect(riffs[i]!.flatMap((system) => system.bars.map(({ others }) => others))).toEqual(slashes);
        }
      }
    },
  );

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
