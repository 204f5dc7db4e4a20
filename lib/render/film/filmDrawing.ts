import { notInstalled } from "../../base/index.js";
import type { Rung } from "../../drill/index.js";
import type { Score } from "../../schema/index.js";
import type { Result } from "../problem.js";
import { packageMissing } from "../sheet/index.js";
import type { FilmDrawing, FilmOptions } from "./layOutFilm.js";

/**
 * Lays out the film of a rung: its titles, the engraved riff as large as it fits, under each system the strip of the phrase that is played, and a key. The
 * score is one of the rung's. Problems: SHEET_PACKAGE_MISSING without the optional package `fontkit`, FONT_NOT_READ, ENGRAVING_FAILED, and those of the
 * notation; advice LETTER_WITHOUT_GLYPH for letters that a font of the machine has to draw.
 */
export async function filmDrawing(rung: Rung, score: Score, options: FilmOptions): Promise<Result<FilmDrawing>> {
  const drawing = await import("./layOutFilm.js").catch(notInstalled);
  return drawing === undefined ? packageMissing() : drawing.layOutFilm(rung, score, options);
}
