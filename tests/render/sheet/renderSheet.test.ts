import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Resvg } from "@resvg/resvg-js";
import { SaxesParser } from "saxes";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { failure } from "../../../lib/base/index.js";
import {
  type Engraver,
  renderSheet,
  type Sheet,
  type SheetOptions,
  verovioEngraver,
} from "../../../lib/render/sheet/index.js";
import { MARGIN, PAPERS } from "../../../lib/render/sheet/pageStyle.js";
import { casesOf, FONTS, fontFile, freshEngraver, HARD, openEngraver, SHIPPED, type SheetCase } from "./material.js";

let engraver: Engraver;
const scratch = mkdtempSync(join(tmpdir(), "leeway-sheet-"));
beforeAll(async () => {
  engraver = await openEngraver();
});
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const CASES = [...SHIPPED, HARD].flatMap(casesOf);
const LAST = CASES.filter(({ drill, player }) => player === drill.players.at(-1));
const find = (drill: string): SheetCase => LAST.find((each) => each.drill.name === drill)!;

async function sheetOf({ course, drill, player }: SheetCase, options: Partial<SheetOptions> = {}): Promise<Sheet> {
  const made = await renderSheet(drill, player, {
    paper: "a4",
    engraver,
    fonts: FONTS,
    course: course.title,
    ...options,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}

/** The usual sheet of a case, made once: several laws look at each. */
const made = new Map<SheetCase, Promise<Sheet>>();

function usualSheet(each: SheetCase): Promise<Sheet> {
  const known = made.get(each) ?? sheetOf(each);
  made.set(each, known);
  return known;
}

const hasPoppler = spawnSync("pdftotext", ["-v"]).error === undefined;
if (!hasPoppler)
  console.log("skipped: PDFs are not read back, because pdftotext (Debian: poppler-utils) is not installed");
const whenPoppler = hasPoppler ? test : test.skip;

function poppler(tool: string, pdf: Uint8Array, ...args: readonly string[]): string {
  const file = join(scratch, "sheet.pdf");
  writeFileSync(file, pdf);
  const { stdout, stderr, status } = spawnSync(tool, args[0] === "-" ? [file, "-"] : [file], { encoding: "utf8" });
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return stdout;
}

describe("the PDF", () => {
  whenPoppler.each(LAST.map((each) => [each.name, each] as const))(
    "has its text as text and its fonts embedded: %s",
    async (_, each) => {
      const { pdf, svg } = await usualSheet(each);
      const text = poppler("pdftotext", pdf, "-").replace(/\s+/g, " ");
      expect(text).toContain(each.drill.title ?? each.drill.name);
      expect(text).toContain("A take is clean when");
      const fonts = poppler("pdffonts", pdf).trim().split("\n").slice(2);
      expect(fonts.length).toBeGreaterThan(0);
      // Columns of pdffonts: name, type, encoding, emb, sub, uni, object ID.
      for (const line of fonts) expect(line).toMatch(/LeewayText-\w+ .* yes +yes +yes +\d+ +\d+$/);
      const info = poppler("pdfinfo", pdf);
      expect(info).toMatch(new RegExp(`^Pages: +${svg.length}$`, "m"));
      expect(info).toMatch(/^Page size: +595\.276 x 841\.89 pts \(A4\)$/m);
      expect(info).not.toMatch(/Date:/);
    },
  );

  whenPoppler("is of US Letter size when that is asked for", async () => {
    const { pdf } = await sheetOf(find("half-bar"), { paper: "letter" });
    expect(poppler("pdfinfo", pdf)).toMatch(/^Page size: +612 x 792 pts \(letter\)$/m);
  });

  test("is the same bytes for the same arguments, and another for another player", async () => {
    const each = find("sevens-dropouts");
    const other = CASES.find(({ drill, player }) => drill === each.drill && player !== each.player)!;
    const another = await freshEngraver();
    const [first, again, others] = [
      await sheetOf(each),
      await sheetOf(each, { engraver: another }),
      await sheetOf(other),
    ];
    expect(Buffer.from(again.pdf).equals(Buffer.from(first.pdf))).toBe(true);
    expect(again.svg).toEqual(first.svg);
    expect(Buffer.from(others.pdf).equals(Buffer.from(first.pdf))).toBe(false);
  });

  test("does not depend on what was engraved before", async () => {
    const each = find("lantern-dropouts");
    const [busy, idle] = [await freshEngraver(), await freshEngraver()];
    await sheetOf(find("hard"), { engraver: busy });
    expect((await sheetOf(each, { engraver: busy })).svg).toEqual((await sheetOf(each, { engraver: idle })).svg);
  });
});

/** Of the picture, in pixels. */
const WIDTH = 1200;

describe("the SVG", () => {
  test.each(LAST.map((each) => [each.name, each] as const))(
    "is well-formed, names itself and stands alone: %s",
    async (_, each) => {
      for (const page of (await usualSheet(each)).svg) {
        const names: string[] = [];
        const parser = new SaxesParser({ xmlns: true });
        parser.on("opentag", ({ name }) => names.push(name));
        parser.write(page).close();
        expect(names.slice(0, 3)).toEqual(["svg", "title", "desc"]);
        expect(page).not.toMatch(/href="(?!#)|url\((?!data:)/);
        // Every outline that is used is there.
        for (const [, id] of page.matchAll(/<use href="#(\w+)"/g)) expect(page).toContain(`id="${id}"`);
      }
    },
  );

  // Relative luminance after ITU-R BT.709; a picture of about 2 pixels to the point.
  test.each(LAST.map((each) => [each.name, each] as const))(
    "is inked inside its margins and not over-full: %s",
    async (_, each) => {
      for (const page of (await usualSheet(each)).svg) {
        const picture = new Resvg(page, {
          fitTo: { mode: "width", value: WIDTH },
          font: {
            fontFiles: ["regular", "italic", "bold"].map(fontFile),
            loadSystemFonts: false,
            defaultFontFamily: "Leeway Text",
          },
        }).render();
        const { width, height, pixels } = picture;
        const scale = PAPERS.a4.width / width;
        let ink = 0;
        for (let y = 0; y < height; y++) {
          for (let x = 0; x < width; x++) {
            const at = 4 * (y * width + x);
            const light = 0.2126 * pixels[at]! + 0.7152 * pixels[at + 1]! + 0.0722 * pixels[at + 2]!;
            if (light > 250) continue;
            ink++;
            const [left, top] = [x * scale, y * scale];
            if (
              left < MARGIN.side - 2 ||
              left > PAPERS.a4.width - MARGIN.side + 2 ||
              top < 20 ||
              top > PAPERS.a4.height - MARGIN.bottom + 2
            )
              throw new Error(`ink at ${left}, ${top} points`);
          }
        }
        const share = ink / (width * height);
        // A page of engraved parts is mostly white; an empty or a black one is a defect.
        expect(share).toBeGreaterThan(0.01);
        expect(share).toBeLessThan(0.2);
      }
    },
  );
});

describe("renderSheet()", () => {
  const { drill, player } = find("half-bar");
  const codes = async (options: Partial<SheetOptions>): Promise<readonly string[]> => {
    const made = await renderSheet(drill, player, { paper: "a4", engraver, fonts: FONTS, ...options });
    return made.ok ? made.advice.map(({ code }) => code) : made.problems.map(({ code }) => code);
  };

  test("says all at once which paper is not known and which fonts are none", async () => {
    const fonts = { ...FONTS, italic: new Uint8Array(), bold: new TextEncoder().encode("not a font at all") };
    expect(await codes({ paper: "napkin" as "a4", fonts })).toEqual([
      "PAPER_UNKNOWN",
      "FONT_NOT_READ",
      "FONT_NOT_READ",
    ]);
  });

  test("advises of letters the font does not have", async () => {
    expect(await codes({ course: "岸壁 course" })).toEqual(["LETTER_WITHOUT_GLYPH", "LETTER_WITHOUT_GLYPH"]);
  });

  test("says which font to give, and draws with it what the others lack, in SVG and PDF without the whole font", async () => {
    const without = { regular: FONTS.italic, italic: FONTS.italic, bold: FONTS.bold };
    const flats = (fonts: SheetOptions["fonts"]) =>
      renderSheet(drill, player, { paper: "a4", engraver, course: "B♭ course", fonts });
    const bare = await flats(without);
    expect(bare.ok && bare.advice.find(({ message }) => message.includes("♭"))).toMatchObject({
      code: "LETTER_WITHOUT_GLYPH",
      remedy: "give an OpenType or TrueType font that has it, such as one for Japanese",
    });
    const whole = await flats({ ...without, other: FONTS.regular });
    if (!whole.ok) throw new Error("not rendered");
    expect(whole.advice.map(({ code }) => code)).not.toContain("LETTER_WITHOUT_GLYPH");
    expect(whole.value.svg.join("").replace(/<title>.*?<\/desc>/gs, "")).not.toContain("♭");
  });

  test("passes on what the engraver says", async () => {
    const problem = { code: "ENGRAVING_FAILED", severity: "error", message: "no", where: {} } as const;
    expect(await codes({ engraver: { engrave: () => failure(problem) } })).toEqual(["ENGRAVING_FAILED"]);
  });

  test("keeps a title with markup as it is written", async () => {
    const titled = { ...drill, title: `Quay <& "west"> 'pier'` };
    const sheet = await sheetOf({ ...find("half-bar"), drill: titled });
    expect(sheet.svg[0]).toContain("Quay &#60;&#38; &#34;west&#34;&#62; 'pier'");
    if (hasPoppler) expect(poppler("pdfinfo", sheet.pdf)).toContain(`Quay <& "west"> 'pier'`);
  });
});

describe("verovioEngraver()", () => {
  test("answers what it cannot draw with a problem", () => {
    const said = engraver.engrave("<score-partwise><part/></score-partwise>", { width: 100, systems: "one" });
    expect(said.ok ? [] : said.problems.map(({ code }) => code)).toEqual(["ENGRAVING_FAILED"]);
  });

  test("is an engraver from anything shaped like the toolkit", () => {
    const toolkit = {
      setOptions: () => {},
      loadData: () => 0,
      getLog: () => "[Error] out of ink\n",
      getPageCount: () => 0,
      renderToSVG: () => "",
      renderToTimemap: () => [],
    };
    const said = verovioEngraver(toolkit).engrave("<x/>", { width: 100, systems: "one" });
    expect(said.ok ? "" : said.problems[0]!.message).toContain("out of ink");
  });
});
