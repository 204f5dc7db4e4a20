import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Drill } from "../../../lib/drill/index.js";
import { type Engraver, renderSheet, type SheetReader } from "../../../lib/render/sheet/index.js";
import { isOfBand } from "../../../lib/render/sheet/sheetReader.js";
import { FONTS } from "../sheet/material.js";
import { type Glyphs, glyphsIn, inkOf } from "./ink.js";
import { type PrintedSystem, readNotation } from "./readNotation.js";

/** A sheet with what its engraver drew on the way. */
export interface Printed {
  readonly svg: readonly string[];
  readonly pdf: Uint8Array;
  /** The engraver's own SVG of each form of the riff. */
  readonly engraved: readonly string[];
  /** The engraver's own SVG of the scale under each form with open bars. */
  readonly scales: readonly string[];
}

/** The glyphs of the music font, by what Verovio says beside each drawing: filled as sheets are printed. */
export const GLYPHS: Glyphs = new Map();

export async function printSheet(drill: Drill, reader: SheetReader, engraver: Engraver): Promise<Printed> {
  const engraved: string[] = [];
  const scales: string[] = [];
  const listening: Engraver = {
    engrave(musicXml, layout) {
      const made = engraver.engrave(musicXml, layout);
      // A scale is in no time: its meter is hidden.
      const isScale = musicXml.includes('<time print-object="no">');
      if (made.ok && layout.systems === "as written") (isScale ? scales : engraved).push(made.value.svg);
      return made;
    },
  };
  // Alone, so that all that is engraved is on this sheet.
  const alone = reader === undefined || isOfBand(reader) ? drill : { ...drill, players: [reader] };
  const made = await renderSheet(alone, reader, { paper: "a4", engraver: listening, fonts: FONTS });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  for (const svg of [...engraved, ...scales]) glyphsIn(svg, GLYPHS);
  return { ...made.value, engraved, scales };
}

/** The systems on all pages, shared out to riffs of so many bars each. */
export function riffsOn(pages: readonly string[], bars: readonly number[]): readonly (readonly PrintedSystem[])[] {
  const systems = pages.flatMap((page) => readNotation(inkOf(page), GLYPHS));
  const riffs = bars.map((count) => {
    const own: PrintedSystem[] = [];
    for (let found = 0; found < count && systems.length > 0; ) {
      const system = systems.shift()!;
      own.push(system);
      found += system.bars.length;
    }
    return own;
  });
  if (systems.length > 0) throw new Error(`${systems.length} systems are left over`);
  return riffs;
}

export const hasPoppler: boolean = spawnSync("pdftocairo", ["-v"]).error === undefined;
if (!hasPoppler)
  console.log("skipped: notes are not read off PDFs, because pdftocairo (Debian: poppler-utils) is not installed");

/** The pages of a PDF as Poppler draws them: outlines, texts as outlines too. */
export function drawnByPoppler(pdf: Uint8Array): readonly string[] {
  const scratch = mkdtempSync(join(tmpdir(), "leeway-printed-"));
  try {
    const file = join(scratch, "sheet.pdf");
    writeFileSync(file, pdf);
    const { stdout } = spawnSync("pdfinfo", [file], { encoding: "utf8" });
    const count = Number(/^Pages: +(\d+)$/m.exec(stdout)?.[1] ?? 0);
    return Array.from({ length: count }, (_, i) => {
      const drawn = join(scratch, `${i}.svg`);
      const page = String(i + 1);
      const { status, stderr } = spawnSync("pdftocairo", ["-svg", "-f", page, "-l", page, file, drawn], {
        encoding: "utf8",
      });
      if (status !== 0) throw new Error(stderr);
      return readFileSync(drawn, "utf8");
    });
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}
