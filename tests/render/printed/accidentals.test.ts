import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import type { Engraver } from "../../../lib/render/sheet/index.js";
import { sample } from "../../samples.js";
import { openEngraver } from "../sheet/material.js";
import { expectToShow } from "./expectToShow.js";
import { formOf, formsBy, PITCHED, tableOf } from "./formsBy.js";
import { drawnByPoppler, hasPoppler, printSheet, riffsOn } from "./printedSheet.js";
import { drillOf, legiblePrintings } from "./randomRiffs.js";

/** How many random riffs are printed and read. */
const SHEETS = sample({ suite: 30, proof: 1000 });
/** Milliseconds for all of them: several times what two slow cores take. */
const LONG = 60_000 + 4_000 * SHEETS;

let engraver: Engraver;
beforeAll(async () => {
  engraver = await openEngraver();
});

describe("accidentals read off the page", () => {
  test.each(PITCHED.map((each) => [each.name, each] as const))(
    "stand where the pitches ask for them, in every form that a rung has: %s",
    async (_, { drill, player }) => {
      const forms = formsBy(drill);
      const printed = await printSheet(drill, player, engraver);
      // What one player's PDF shows of the SVG, the others' do.
      const hasPdf = hasPoppler && player === drill.players.at(-1);
      const pages = hasPdf ? [printed.svg, drawnByPoppler(printed.pdf)] : [printed.svg];
      const counts = forms.map(({ bars }) => bars.length);
      for (const riffs of pages.map((each) => riffsOn(each, counts))) {
        for (const [i, form] of forms.entries()) {
          expectToShow(riffs[i]!, tableOf(form, player));
          expect(riffs[i]!.flatMap((system) => system.bars.map(({ others }) => others))).toEqual(form.slashes);
        }
      }
    },
  );

  test(
    `stand where the pitches ask for them: ${SHEETS} random riffs over all keys and players, SVG${hasPoppler ? " and PDF" : ""}`,
    async () => {
      await fc.assert(
        fc.asyncProperty(legiblePrintings, async (printing) => {
          const table = tableOf(formOf(printing), printing.player);
          const printed = await printSheet(drillOf(printing), printing.player, engraver);
          const count = [printing.riff.bars.length];
          expectToShow(riffsOn(printed.svg, count)[0]!, table);
          if (hasPoppler) expectToShow(riffsOn(drawnByPoppler(printed.pdf), count)[0]!, table);
        }),
        { numRuns: SHEETS, endOnFailure: true },
      );
    },
    LONG,
  );
});
