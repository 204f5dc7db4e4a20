import { failure, ifInstalled, type Result, success } from "../../base/index.js";
import type { Drill } from "../../drill/index.js";
import { sheetProblem } from "./codes.js";
import type { SheetOptions } from "./layOutSheet.js";
import type { Player } from "./riff/formPage.js";
import { sayProblem } from "./say.js";
import { svgOf } from "./svg.js";

/** The printed sheet of a drill for one player: an SVG for each page, and a PDF of all pages. */
export interface Sheet {
  readonly svg: readonly string[];
  readonly pdf: Uint8Array;
}

/**
 * Renders the sheet of a drill for one player: the transposed riff in each form with the silences of each rung, the rungs, and the criteria to
 * go on. It has one page when everything fits. Without a player it is at concert pitch. The same arguments give the same bytes.
 *
 * Problems: SHEET_PACKAGE_MISSING without the optional packages `fontkit` and `pdfkit`, PAPER_UNKNOWN, FONT_NOT_READ, ENGRAVING_FAILED, and those of the notation (NOTE_NOT_NOTATABLE); advice LETTER_WITHOUT_GLYPH.
 *
 * @example
 * const sheet = await renderSheet(drill, drill.players[0], { paper: "a4", engraver, fonts });
 * if (sheet.ok) await writeFile("trumpet.pdf", sheet.value.pdf);
 */
export async function renderSheet(
  drill: Drill,
  player: Player | undefined,
  options: SheetOptions,
): Promise<Result<Sheet>> {
  const drawing = await ifInstalled(() => Promise.all([import("./layOutSheet.js"), import("./pdf.js")]));
  if (drawing === undefined) {
    const message = sayProblem("sheet-problem.sheet-package-missing");
    const remedy = sayProblem("sheet-problem.sheet-package-missing-remedy");
    return failure(sheetProblem("SHEET_PACKAGE_MISSING", message, {}, remedy));
  }
  const [{ layOutSheet }, { pdfOf }] = drawing;
  const laidOut = layOutSheet(drill, player, options);
  if (!laidOut.ok) return laidOut;
  const { title, subject, pages } = laidOut.value;
  const { fonts, words, language = words?.language ?? "en" } = options;
  const svg = pages.map((page) => svgOf(page, fonts));
  const pdf = await pdfOf(pages, { fonts, info: { title, subject, language } });
  return success({ svg, pdf }, laidOut.advice);
}
