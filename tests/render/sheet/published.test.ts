import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deflateSync } from "node:zlib";
import { Resvg } from "@resvg/resvg-js";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { crc32 } from "../../../lib/curriculum/compiled/crc32.js";
import type { Drill } from "../../../lib/drill/index.js";
import type { PathMark, TextMark } from "../../../lib/render/sheet/drawing.js";
import { type Engraver, renderSheet, type SheetOptions, type SheetReader } from "../../../lib/render/sheet/index.js";
import { type LaidOutSheet, layOutSheet, layOutSheets } from "../../../lib/render/sheet/layOutSheet.js";
import { ACCENT, MARGIN, MUTED } from "../../../lib/render/sheet/pageStyle.js";
import type { SheetPage } from "../../../lib/render/sheet/svg.js";
import { openTypeface, type Typeface } from "../../../lib/render/sheet/typeface.js";
import { sample } from "../../samples.js";
import { ROOT } from "../../sources.js";
import { glyphsAmong, inkOf } from "../printed/ink.js";
import { boxOf, outlineOf } from "../printed/outline.js";
import { GLYPHS, printSheet } from "../printed/printedSheet.js";
import { course, FONTS, HARD, openEngraver, SHIPPED } from "./material.js";

/** Types of this CommonJS library do not say how it is imported. */
const decodeQr = createRequire(import.meta.url)("jsqr") as typeof import("jsqr")["default"];

let engraver: Engraver;
let type: Typeface;
const scratch = mkdtempSync(join(tmpdir(), "leeway-published-"));
beforeAll(async () => {
  engraver = await openEngraver();
  const opened = openTypeface(FONTS);
  if (!opened.ok) throw new Error("the fonts could not be read");
  type = opened.value;
});
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const DRILLS = [...SHIPPED, HARD].flatMap(({ drills }) => drills);
const drillNamed = (name: string): Drill => DRILLS.find((drill) => drill.name === name)!;
const options = (more: Partial<SheetOptions> = {}): SheetOptions => ({ paper: "a4", engraver, fonts: FONTS, ...more });

function laidOut(drill: Drill, reader: SheetReader, more: Partial<SheetOptions> = {}): LaidOutSheet {
  const made = layOutSheet(drill, reader, options(more));
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}

/** A PNG of one colour, after the W3C's specification (second edition, 5 and 11). */
function png(width: number, height: number): Uint8Array {
  const chunk = (name: string, data: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
    const size = Buffer.alloc(4);
    size.writeUInt32BE(data.length);
    const sum = Buffer.alloc(4);
    sum.writeUInt32BE(crc32(body));
    return Buffer.concat([size, body, sum]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 0, 0, 0, 0], 8);
  const rows = Buffer.alloc((width + 1) * height);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return new Uint8Array(
    Buffer.concat([signature, chunk("IHDR", head), chunk("IDAT", deflateSync(rows)), chunk("IEND", Buffer.alloc(0))]),
  );
}

const IMPRINT = {
  author: "Marta Quay",
  arranger: "Jonas Pier",
  copyright: "© 2026 Quayside school of winds",
  licence: "You may copy this sheet for your own students.",
};
const ADDRESS = "https://quayside.example/practice#/drill/half-bar/1";

const hasPoppler = spawnSync("pdftotext", ["-v"]).error === undefined;
if (!hasPoppler) console.log("skipped: PDFs are not read back, because poppler-utils (Debian) is not installed");

describe("what a publisher says", () => {
  test("a QR code on the drawn page is read as the address by another program's reader (jsqr)", async () => {
    const made = await renderSheet(drillNamed("half-bar"), undefined, options({ address: ADDRESS }));
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const { pixels, width, height } = new Resvg(made.value.svg[0]!, { fitTo: { mode: "width", value: 1200 } }).render();
    expect(decodeQr(new Uint8ClampedArray(pixels), width, height)?.data).toBe(ADDRESS);
  });

  test.skipIf(!hasPoppler)("pdftotext, pdfinfo and pdfimages find it all in the PDF", async () => {
    const more = { imprint: IMPRINT, address: ADDRESS, logo: png(60, 20), course: "Quayside first course" };
    const made = await renderSheet(drillNamed("half-bar"), undefined, options(more));
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const file = join(scratch, "sheet.pdf");
    writeFileSync(file, made.value.pdf);
    const said = (tool: string, ...args: string[]): string => spawnSync(tool, args, { encoding: "utf8" }).stdout;
    const text = said("pdftotext", file, "-").replace(/\s+/g, " ");
    for (const each of [IMPRINT.author, "arr. Jonas Pier", IMPRINT.copyright, IMPRINT.licence, ADDRESS])
      expect(text).toContain(each);
    const info = said("pdfinfo", file);
    expect(info).toMatch(/^Author: +Marta Quay$/m);
    expect(info).toMatch(/^Keywords: +Quayside first course, half-bar$/m);
    expect(info).toMatch(/^Title: +.*Half a bar/m);
    expect(said("pdfimages", "-list", file)).toMatch(/^ +1 +0 +image +60 +20 /m);
  });

  test("a pattern's own author stands in the place of the course's", () => {
    const drill = drillNamed("half-bar");
    const own = { ...drill, pattern: { ...drill.pattern, author: "Ida Mole" } };
    const texts = textsOn(laidOut(own, undefined, { imprint: IMPRINT }).pages[0]!).map(({ text }) => text);
    expect(texts).toContain("Ida Mole");
    expect(texts).not.toContain("Marta Quay");
  });

  test("a logo that is no picture is refused, and so is one that is cut off", () => {
    for (const logo of [
      new TextEncoder().encode("<svg/>"),
      png(4, 4).slice(0, 20),
      new Uint8Array([0xff, 0xd8, 0xff]),
    ]) {
      const made = layOutSheet(drillNamed("half-bar"), undefined, options({ logo }));
      expect(made.ok ? [] : made.problems.map(({ code }) => code)).toEqual(["PICTURE_NOT_READ"]);
    }
  });

  test("a drill without a title has its pattern's", () => {
    const { title, ...untitled } = drillNamed("lantern-steady");
    expect(title).toBe("Lantern with the band");
    expect(laidOut(untitled, undefined).title).toContain("Lantern swing");
  });
});

const textsOn = (page: SheetPage): readonly TextMark[] =>
  page.marks.flatMap((mark) => (mark.kind === "text" ? [mark] : []));

describe("one rule of pages", () => {
  test.each(DRILLS.filter(({ players }) => players.length > 1).map((drill) => [drill.name, drill] as const))(
    "all players have the same bars in the same lines at the same heights: %s",
    (_, drill) => {
      const made = layOutSheets(drill, drill.players, options());
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      // The numbers of bars under the lines, and where; the first edge of what is silent too.
      const layouts = made.value.map(({ pages }) =>
        pages.map((page) =>
          textsOn(page)
            .filter(({ size, ink, text }) => size === 7.5 && ink === MUTED && /^\d+$/.test(text))
            .map(({ text }) => text),
        ),
      );
      for (const each of layouts) expect(each).toEqual(layouts[0]);
    },
  );

  test("a sheet is the same whoever else is asked for", () => {
    const drill = drillNamed("lantern-dropouts");
    const [first, second] = drill.players;
    const together = layOutSheets(drill, [second!, first!], options());
    expect(together.ok && together.value[1]!.pages).toEqual(laidOut(drill, first).pages);
  });
});

describe("what a sheet says of its drill", () => {
  const said = (drill: Drill, reader: SheetReader): string =>
    laidOut(drill, reader)
      .pages.flatMap(textsOn)
      .map(({ text }) => text)
      .join(" ");

  test("is on those of players and on the score, and not on those of the band, to whom it does not speak", () => {
    const drill = drillNamed("half-bar");
    const about = drill.about!;
    expect(said(drill, drill.players[0])).toContain(about);
    expect(said(drill, "score")).toContain(about);
    expect(said(drill, { part: "bass" })).not.toContain(about.slice(0, 20));
  });

  test("a score has a form for each set of open bars, with slashes for who plays the riff and the scale once", async () => {
    const drill = drillNamed("tidewater-open");
    const text = said(drill, "score");
    for (const each of ["All bars written", "Bar 4 open", "Bars 3 and 4 open"]) expect(text).toContain(each);
    expect(text).toContain("F major pentatonic: F G A C D");
    expect(text).not.toMatch(/bars? [\d and]+ yours/i);
    // One open bar and then two, of four beats each.
    expect(await slashesOn(drill, "score")).toEqual([0, 4, 8]);
    expect(await slashesOn(drill, { part: "bass" })).toEqual([0]);
  });

  test("the legend of the silences stands under them, and the scale of the open bars below both", () => {
    const text = readFileSync(join(ROOT, "curricula/quayside-wind-and-brass.yaml"), "utf8");
    const one = text
      .replace("open: { scale: F major", "open: { bars: [3, 4], scale: F major")
      .replace("      - open: [[], [4], [3, 4]]\n", "");
    const drill = course(one).drills.find(({ name }) => name === "tidewater-open")!;
    for (const reader of [drill.players[0], "score"] as const) {
      const page = laidOut(drill, reader).pages[0]!;
      const legend = textsOn(page).find((mark) => mark.text.startsWith("Filled:"))!;
      const strip = Math.max(...bars(page).map(({ bottom }) => bottom));
      // The five lines of the small staff, and its clef and notes.
      const drawn = page.marks.flatMap((mark) => (mark.kind === "path" ? [placed(mark)] : []));
      const under = drawn.filter(({ top }) => top > strip + 1);
      expect(under.filter(({ top }) => top < legend.y)).toEqual([]);
      expect(under.filter(({ top }) => top < legend.y + 60).length).toBeGreaterThan(10);
    }
  });
});

/** The slashes (SMuFL 1.4, "Slash noteheads") in each form of a riff that is engraved for a reader. */
async function slashesOn(drill: Drill, reader: SheetReader): Promise<readonly number[]> {
  const { svg, engraved } = await printSheet(drill, reader, engraver);
  const onPages = svg
    .flatMap((page) => glyphsAmong(inkOf(page).ink, GLYPHS))
    .filter(({ code }) => code.startsWith("E10")).length;
  const forms = engraved.map((each) => each.match(/<use [^>]*href="#E10/g)?.length ?? 0);
  expect(onPages).toBe(forms.reduce((sum, each) => sum + each, 0));
  return forms;
}

interface Rectangle {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What is drawn in the colour of the strips: bars of what sounds, and lines of what is partly silent. */
function bars(page: SheetPage): readonly Rectangle[] {
  return page.marks.flatMap((mark) => (mark.kind === "path" && mark.fill === ACCENT ? [placed(mark)] : []));
}

function placed(mark: PathMark): Rectangle {
  return boxOf(outlineOf(mark.d, [mark.scaleX, 0, 0, mark.scaleY, mark.x, mark.y]));
}

function overlaps(a: Rectangle, b: Rectangle): boolean {
  return (
    Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.2 &&
    Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.2
  );
}

const letters = ({ x, y, text, face, size }: TextMark): Rectangle => {
  return { left: x, right: x + type.width(text, face, size), top: y - 0.7 * size, bottom: y };
};

describe("rectangles", () => {
  const READERS = DRILLS.flatMap((drill): readonly (readonly [string, Drill, SheetReader])[] => {
    const parts = drill.pattern.parts.filter(({ name }) => name !== drill.student).map(({ name }) => ({ part: name }));
    const readers: readonly SheetReader[] = [
      drill.players.at(-1),
      ...parts,
      ...(parts.length > 0 ? ["score" as const] : []),
    ];
    return readers.map(
      (reader) => [`${drill.name} for ${JSON.stringify(reader)?.slice(0, 40)}`, drill, reader] as const,
    );
  });

  // In large print a third in the suite, in turn over drills and readers, with all of what is hard to set; all in a proof.
  const share = sample({ suite: 1, proof: 3 });
  const LARGE = READERS.filter(([, drill], i) => i % 3 < share || HARD.drills.includes(drill));
  for (const [size, readers] of [
    ["usual", READERS],
    ["large", LARGE],
  ] as const)
    test.each(readers)(
      `no text covers a bar of a strip or another text, and none is cut, in ${size} print: %s`,
      (_, drill, reader) => {
        for (const page of laidOut(drill, reader, { size, imprint: IMPRINT, address: ADDRESS, course: "Quayside" })
          .pages) {
          const texts = textsOn(page).map((mark) => ({ ...letters(mark), text: mark.text }));
          for (const text of texts) {
            for (const bar of bars(page)) expect(overlaps(text, bar), `${text.text} over a bar`).toBe(false);
            expect(text.left, text.text).toBeGreaterThanOrEqual(MARGIN.side - 1);
            expect(text.right, text.text).toBeLessThanOrEqual(page.paper.width - MARGIN.side + 1);
            expect(text.bottom, text.text).toBeLessThanOrEqual(page.paper.height - MARGIN.bottom + 1);
          }
          const covered = texts.flatMap((a, i) =>
            texts
              .slice(i + 1)
              .filter((b) => overlaps(inner(a), inner(b)))
              .map((b) => `${a.text} / ${b.text}`),
          );
          expect(covered).toEqual([]);
        }
      },
    );

  test("a label longer than the room before the bars stands over its bars", () => {
    const drill = course(LONG_LABELS).drills[0]!;
    const [page] = laidOut(drill, undefined).pages;
    const label = textsOn(page!).find(({ text }) => text.includes("whole notes"))!;
    expect(label).toBeDefined();
    for (const bar of bars(page!)) expect(overlaps(letters(label), bar)).toBe(false);
  });
});

/** Half a point less on every side: kerning of neighbouring runs. */
function inner({ left, right, top, bottom }: Rectangle): Rectangle {
  return { left: left + 0.3, right: right - 0.3, top: top + 0.3, bottom: bottom - 0.1 };
}

const LONG_LABELS = `
curriculum: long-labels
edition: 1.0.0
title: Long labels
players: []
patterns:
  plain:
    meter: 4/4
    bars: 4
    parts:
      kit: { voices: { hat: "x-x-x-x- | ..." } }
      lead: { notes: "1/4 D4 E4 F4 G4 | ..." }
drills:
  growing:
    pattern: plain
    student: lead
    phrases: 6
    tempo: 80
    dropout: { grows: { from: 5/4 note, to: 3/2 note, by: 1/8 note, each: 2 phrases }, parts: [kit] }
    mixes: { play: { lead: off } }
    tolerance: { drift: 20 %, landing: 140 ms }
    gate: { in-a-row: 2 }
`;
