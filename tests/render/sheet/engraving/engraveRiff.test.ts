import { beforeAll, describe, expect, test } from "vitest";
import { subtract, toNumber } from "../../../../lib/base/index.js";
import { musicXmlOf } from "../../../../lib/render/musicxml/index.js";
import { engraveRiff } from "../../../../lib/render/sheet/engraving/engraveRiff.js";
import { withRoomInEmptyBars, withSlashesIn } from "../../../../lib/render/sheet/engraving/engraverXml.js";
import type { System } from "../../../../lib/render/sheet/engraving/readEngraving.js";
import type { Engraver } from "../../../../lib/render/sheet/index.js";
import { MARGIN, PAPERS, STAFF } from "../../../../lib/render/sheet/pageStyle.js";
import { formPage } from "../../../../lib/render/sheet/riff/formPage.js";
import { formsOf } from "../../../../lib/render/sheet/riff/riffForms.js";
import { stripBars } from "../../../../lib/render/sheet/riff/silenceStrip.js";
import { casesOf, HARD, openEngraver, SHIPPED } from "../material.js";

let engraver: Engraver;
beforeAll(async () => {
  engraver = await openEngraver();
});

const WIDTH = PAPERS.a4.width - 2 * MARGIN.side;
/** One player of each drill is enough: the others read the same bars. */
const CASES = [...SHIPPED, HARD].flatMap(casesOf).filter(({ drill, player }) => player === drill.players[0]);

describe.each(CASES.map((each) => [each.name, each] as const))("%s", (_, { drill, player }) => {
  const forms = formsOf(drill).map((form) => ({ form, page: formPage(drill, form, player) }));

  function engraved(index: number): { readonly systems: readonly System[]; readonly bars: readonly number[] } {
    const xml = musicXmlOf(forms[index]!.page);
    if (!xml.ok) throw new Error(JSON.stringify(xml.problems));
    const riff = engraveRiff(withRoomInEmptyBars(xml.value, forms[index]!.page.bars), { engraver, width: WIDTH });
    if (!riff.ok) throw new Error(JSON.stringify(riff.problems));
    return riff.value;
  }

  test("engraveRiff() draws every bar once, systems alike and inside the width", () => {
    forms.forEach(({ page }, i) => {
      const { systems, bars } = engraved(i);
      expect(systems.map((system) => system.bars.length)).toEqual(bars);
      expect(bars.reduce((a, b) => a + b, 0)).toBe(page.bars.length);
      expect(Math.max(...bars) - Math.min(...bars)).toBeLessThanOrEqual(1);
      for (const system of systems) {
        expect(system.bars.at(-1)!.right).toBeLessThanOrEqual(WIDTH + 1);
        // Staff lines are where a staff of 7 mm has them.
        expect(system.bottom).toBeGreaterThanOrEqual(STAFF - 0.01);
      }
    });
  });

  test("stripBars() puts each onset of the riff under its head, and bars from line to line", () => {
    forms.forEach(({ page }, i) => {
      let first = 0;
      for (const system of engraved(i).systems) {
        for (const bar of stripBars(system, page.bars, first)) {
          const index = page.bars.findIndex(({ number }) => Number(number) === bar.number);
          const inside = page.staves[0]!.notes.filter(
            ({ position }) => toNumber(position) > toNumber(bar.from) && toNumber(position) < toNumber(bar.to),
          );
          for (const { position } of inside) {
            const quarters = 4 * toNumber(subtract(position, bar.from));
            // Verovio's stamps have at least three decimals.
            const head = system.heads.find((each) => each.bar === index && Math.abs(each.quarters - quarters) < 1e-3);
            expect(head, `a head in bar ${bar.number} after ${quarters} quarters`).toBeDefined();
            // The cell begins a point before the head; where stamps are rounded, hardly beside it.
            expect(Math.abs(bar.x(position) - (head!.x - 1))).toBeLessThan(0.1);
          }
          expect(bar.x(bar.from)).toBeLessThan(bar.x(bar.to));
          expect(bar.x(bar.to)).toBe(system.bars[index - first]!.right);
        }
        first += system.bars.length;
      }
    });
  });
});

describe("withSlashesIn()", () => {
  test("makes slashes of the notes of the measures it is given, on the middle line, and leaves the others", () => {
    const { drill, player } = CASES.find((each) => each.drill.name === "tidewater-open")!;
    const form = formsOf(drill).find(({ openBars }) => openBars.length === 2)!;
    const xml = musicXmlOf(formPage(drill, form, player));
    if (!xml.ok) throw new Error(JSON.stringify(xml.problems));
    const measures = withSlashesIn(xml.value, new Set([2, 3])).match(/<measure [\s\S]*?<\/measure>/g)!;
    expect(measures.map((measure) => measure.split("<notehead>slash</notehead>").length - 1)).toEqual([0, 0, 4, 4]);
    expect(measures[3]).not.toMatch(/<step>[^B]/);
    expect(measures[0]).toBe(xml.value.match(/<measure [\s\S]*?<\/measure>/)![0]);
  });
});
