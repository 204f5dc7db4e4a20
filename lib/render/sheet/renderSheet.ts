import { failure, notInstalled, success } from "../../base/index.js";
import type { Drill } from "../../drill/index.js";
import type { Result } from "../problem.js";
import { sheetProblem } from "./codes.js";
import type { OverviewCourse, OverviewOptions } from "./layOutOverview.js";
import type { LaidOutSheet } from "./layOutSheet.js";
import type { pdfOf as PdfOf } from "./pdf.js";
import { sayProblem } from "./say.js";
import type { SheetOptions } from "./sheetOptions.js";
import type { SheetReader } from "./sheetReader.js";
import { svgOf } from "./svg.js";

/** The printed sheet of a drill for one player: an SVG for each page, and a PDF of all pages. */
export interface Sheet {
  readonly svg: readonly string[];
  readonly pdf: Uint8Array;
}

/**
 * Renders the sheet of a drill for one reader: the transposed riff in each form with the silences of each rung, the rungs, and the criteria to
 * go on. It has one page when everything fits. Without a reader it is at concert pitch; of a part of the accompaniment, or as a score of all
 * parts, it has the riff alone. The same arguments give the same bytes.
 *
 * Problems: SHEET_PACKAGE_MISSING without the optional packages `fontkit` and `pdfkit`, PAPER_UNKNOWN, FONT_NOT_READ, PICTURE_NOT_READ, ENGRAVING_FAILED,
 * and those of the notation (NOTE_NOT_NOTATABLE); advice LETTER_WITHOUT_GLYPH. Throws `RangeError` for a part that the pattern does not have.
 *
 * @example
 * const sheet = await renderSheet(drill, drill.players[0], { paper: "a4", engraver, fonts });
 * if (sheet.ok) await writeFile("trumpet.pdf", sheet.value.pdf);
 */
export async function renderSheet(drill: Drill, reader: SheetReader, options: SheetOptions): Promise<Result<Sheet>> {
  const made = await renderSheets(drill, [reader], options);
  return made.ok ? success(made.value[0]!, made.advice) : made;
}

/** Renders the sheets of several readers, each as `renderSheet` does, in less time: players of a drill are engraved together. */
export async function renderSheets(
  drill: Drill,
  readers: readonly SheetReader[],
  options: SheetOptions,
): Promise<Result<readonly Sheet[]>> {
  const drawing = await Promise.all([import("./layOutSheet.js"), import("./pdf.js")]).catch(notInstalled);
  if (drawing === undefined) return packageMissing();
  const [{ layOutSheets }, { pdfOf }] = drawing;
  const laidOut = layOutSheets(drill, readers, options);
  if (!laidOut.ok) return laidOut;
  const of = { ...options, keywords: [options.course ?? "", drill.name] };
  return success(await Promise.all(laidOut.value.map((sheet) => printed(sheet, pdfOf, of))), laidOut.advice);
}

/**
 * Renders the overview of a course, to be printed: its title and what it is about, then each drill with its rungs and what must be shown to go on.
 * `address` is where its QR code leads. Without drills it is the title alone. The same arguments give the same bytes. Problems: those of `renderSheet` that are
 * not of notes.
 *
 * @example
 * const overview = await renderOverview({ title: "Quay", drills: [drill] }, { paper: "a4", fonts });
 * if (overview.ok) await writeFile("overview.pdf", overview.value.pdf);
 */
export async function renderOverview(course: OverviewCourse, options: OverviewOptions): Promise<Result<Sheet>> {
  const drawing = await Promise.all([import("./layOutOverview.js"), import("./pdf.js")]).catch(notInstalled);
  if (drawing === undefined) return packageMissing();
  const [{ layOutOverview }, { pdfOf }] = drawing;
  const laidOut = layOutOverview(course, options);
  if (!laidOut.ok) return laidOut;
  return success(await printed(laidOut.value, pdfOf, { ...options, keywords: [course.title] }), laidOut.advice);
}

async function printed(
  { title, subject, author, pages }: LaidOutSheet,
  pdfOf: typeof PdfOf,
  {
    fonts,
    words,
    imprint,
    keywords,
    language = words?.language ?? "en",
  }: OverviewOptions & { readonly keywords: readonly string[] },
): Promise<Sheet> {
  const info = { title, subject, language, author, copyright: imprint?.copyright, keywords };
  return { svg: pages.map((page) => svgOf(page, fonts)), pdf: await pdfOf(pages, { fonts, info }) };
}

/** The problem of who has not installed what draws sheets. */
export function packageMissing(): Result<never> {
  const message = sayProblem("sheet-problem.sheet-package-missing");
  const remedy = sayProblem("sheet-problem.sheet-package-missing-remedy");
  return failure(sheetProblem("SHEET_PACKAGE_MISSING", message, {}, remedy));
}
