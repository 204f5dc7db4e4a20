import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import type { Drill } from "../../../lib/drill/index.js";
import { INSTRUMENTS } from "../../../lib/pattern/index.js";
import type { Engraver } from "../../../lib/render/sheet/index.js";
import { sample } from "../../samples.js";
import { course, openEngraver } from "../sheet/material.js";
import { glyphsAmong, type Ink, inkOf } from "./ink.js";
import { drawnByPoppler, GLYPHS, hasPoppler, printSheet } from "./printedSheet.js";
import { readNotation, tiesIn } from "./readNotation.js";

/*
 * Marks read off the page by where their ink lies: articulations by the glyphs of SMuFL 1.4 (E4A0 accent, E4A2 staccato, each above; the next
 * one below), slurs as curves there and back, scoops and falls as single curves beside a head.
 */

const SHEETS = sample({ suite: 20, proof: 300 });
const LONG = 60_000 + 4_000 * SHEETS;
/** Points to a staff space: a staff is 7 mm high. */
const SPACE = (7 / 25.4) * 72 * 0.25;
/** A staccato has the shape of the dot of a repeat (E044) and of a dotted note (E1E7), and is read as the one of them that was drawn first. */
const SIGNS: Readonly<Record<string, string>> = { E4A0: "!", E4A2: ".", E044: ".", E1E7: "." };

let engraver: Engraver;
beforeAll(async () => {
  engraver = await openEngraver();
});

/** A drill whose student plays this line. */
function drillOf(notes: string, meter = "4/4"): Drill {
  return course(`
curriculum: marks
edition: 1.0.0
title: Marks
patterns:
  riff: { meter: ${meter}, bars: 2, key: D dorian, parts: { kit: { voices: { hat: "x | ..." } }, lead: { notes: "${notes}" } } }
drills:
  marks:
    pattern: riff
    student: lead
    tempo: 80
    mixes: { play: { lead: off } }
    tolerance: { steadiness: 80 ms }
    gate: { in-a-row: 2 }
`).drills[0]!;
}

/** The marks of each head from left to right: "!", ".", "_", "-scoop", "-fall", and "~" where a slur leads on to the next head. */
function marksOn(svg: readonly string[]): readonly string[] {
  const pages = svg.map((page) => inkOf(page)).filter(({ ink }) => glyphsAmong(ink, GLYPHS).length > 0);
  expect(pages).toHaveLength(1);
  const page = pages[0]!;
  const systems = readNotation(page, GLYPHS);
  expect(systems).toHaveLength(1);
  const heads = systems[0]!.bars.flatMap((bar) => bar.heads.map(({ x }) => ({ x, marks: new Set<string>() })));
  const near = (x: number): (typeof heads)[number] =>
    heads.reduce((best, head) => (Math.abs(head.x - x) < Math.abs(best.x - x) ? head : best));
  const glyphs = glyphsAmong(page.ink, GLYPHS);
  // A tenuto is so flat that its rounded outline in a PDF is not that of the glyph any more: it is a filled bar as wide as a head.
  const isBar = ({ box, isFilled, isStroked }: Ink): boolean =>
    isFilled &&
    !isStroked &&
    box.bottom - box.top < 0.3 * SPACE &&
    Math.abs(box.right - box.left - 1.35 * SPACE) < 0.15 * SPACE;
  for (const { box } of page.ink.filter(isBar)) near((box.left + box.right) / 2 - 0.6 * SPACE).marks.add("_");
  for (const { code, box } of glyphs) {
    // A sign below its head has the code after that of the one above.
    const sign = SIGNS[code] ?? SIGNS[(Number.parseInt(code, 16) - 1).toString(16).toUpperCase()];
    const x = (box.left + box.right) / 2 - 0.6 * SPACE;
    // The dots of a repeat sign have the shape of a staccato, and stand over no head.
    if (sign !== undefined && Math.abs(near(x).x - x) < 0.5 * SPACE) near(x).marks.add(sign);
  }
  for (const { left, right } of tiesIn(page.ink)) {
    const [from, to] = [heads.indexOf(near(left - 0.6 * SPACE)), heads.indexOf(near(right - 0.6 * SPACE))];
    for (const head of heads.slice(from, to)) head.marks.add("~");
  }
  for (const { box, isScoop } of slidesIn(page.ink)) {
    near(isScoop ? box.right : box.left - 1.3 * SPACE).marks.add(isScoop ? "-scoop" : "-fall");
    const struck = glyphs.filter(
      (each) =>
        each.box.left < box.right &&
        each.box.right > box.left &&
        each.box.top < box.bottom &&
        each.box.bottom > box.top,
    );
    expect(
      struck.map(({ code }) => code),
      "what a curve lies on",
    ).toEqual([]);
  }
  return heads.map(({ marks }) => ["!", ".", "_", "-scoop", "-fall", "~"].filter((mark) => marks.has(mark)).join(""));
}

/** Single open curves of a slide's thickness: a scoop goes up to the right, a fall down. */
function slidesIn(ink: readonly Ink[]) {
  return ink.flatMap(({ pieces, box, isFilled, isStroked }) => {
    const [from, curve, ...more] = pieces;
    if (isFilled || !isStroked || more.length > 0 || from?.kind !== "M" || curve?.kind !== "C") return [];
    return [{ box, isScoop: curve.points.at(-1)!.y < from.points[0]!.y }];
  });
}

/** Random notes with random marks that go together; no two notes in a row of one pitch, and the last is slurred to nothing. */
const lines = fc
  .array(
    fc.record({
      step: fc.nat(6),
      marks: fc.subarray(["!", ".", "_", "-scoop", "-fall", "~"]),
    }),
    { minLength: 8, maxLength: 8 },
  )
  .map((notes) => {
    let last = -1;
    const words = notes.map(({ step, marks }, i) => {
      last = step === last ? (step + 1) % 7 : step;
      const name = ["D4", "E4", "F#4", "G4", "A4", "Bb4", "D5"][last]!;
      const own = marks.filter(
        (mark) =>
          !(mark === "_" && marks.includes(".")) &&
          !(mark === "~" && (marks.includes("-fall") || i === notes.length - 1)),
      );
      return { name, marks: own.join("") };
    });
    const text = words.map(({ name, marks }) => name + marks);
    // Quarters, and eighths with a tuplet.
    const line = `1/4 ${text.slice(0, 3).join(" ")} 1/8 ${text.slice(3, 5).join(" ")} | 3 in 2 [1/4 ${text.slice(5, 8).join(" ")}] 1/2 -`;
    return { line, marks: words.map(({ marks }) => marks) };
  });

describe("marks read off the page", () => {
  test(
    `are those of the line, each at its note, and no curve lies on a symbol: ${SHEETS} random lines, SVG${hasPoppler ? " and PDF" : ""}`,
    async () => {
      await fc.assert(
        fc.asyncProperty(lines, fc.constantFrom(undefined, "alto saxophone", "trombone"), async (drawn, name) => {
          const player = name === undefined ? undefined : { instrument: INSTRUMENTS[name]!, octave: 0 };
          const printed = await printSheet(drillOf(drawn.line), player, engraver);
          expect(marksOn(printed.svg)).toEqual(drawn.marks);
          if (hasPoppler) expect(marksOn(drawnByPoppler(printed.pdf))).toEqual(drawn.marks);
        }),
        { numRuns: SHEETS, endOnFailure: true },
      );
    },
    LONG,
  );

  test("go over bar lines", async () => {
    const drill = drillOf("1/4 D4~ F4 A4-scoop G4~ | 1/2 E4 1/4 A4~ C5-fall");
    const printed = await printSheet(drill, undefined, engraver);
    expect(marksOn(printed.svg)).toEqual(["~", "", "-scoop", "~", "", "~", "-fall"]);
  });
});
