import type { Problem } from "../base/index.js";
import { problem } from "./codes.js";
import type { Frame } from "./compile/bars.js";

/** The text between two bar lines. */
export interface Cell {
  readonly text: string;
  /** Index of the text in its line; for a simile, the index of its %. */
  readonly offset: number;
  /** Number of the bar; 0 for the pick-up. */
  readonly bar: number;
  /** For a simile: the bar whose text it repeats. */
  readonly repeats?: number;
}

/**
 * Splits a line at its bar lines: one cell for each bar of the frame, similes replaced by the text they repeat.
 *
 * In a pattern with a pick-up the first cell is the pick-up when the line has more cells than bars, or when `fillsPickup` says that the
 * cell is as long as the pick-up. A part that rests in the pick-up leaves it out or begins with a bar line. A bar line at either end of
 * the line is allowed. Problems: BAR_EMPTY, BAR_COUNT_DIFFERS, SIMILE_WITHOUT_BAR, with offsets.
 */
export function cellsOf(
  line: string,
  frame: Frame,
  fillsPickup: (text: string) => boolean,
): { readonly cells: readonly Cell[]; readonly problems: readonly Problem[] } {
  const written = splitAtBarLines(line);
  if (written.length > 1 && written.at(-1)!.text === "") written.pop();
  const opens = written.length > 1 && written[0]!.text === "";
  if (opens) written.shift();
  const count = frame.bars.length;
  const takesPickup =
    frame.pickup.n > 0 &&
    !opens &&
    (written.length > count || (written[0] !== undefined && fillsPickup(written[0].text)));
  const firstBar = takesPickup ? 0 : 1;
  const problems: Problem[] = countProblems(written, firstBar, count, line.length);
  const cells: Cell[] = [];
  written.slice(0, count + 1 - firstBar).forEach((piece, i) => {
    const bar = firstBar + i;
    const found = cellProblem(piece, bar);
    if (found) problems.push(found);
    else if (piece.text !== "%") cells.push({ ...piece, bar });
    else {
      const source = cells.at(-1);
      if (source) cells.push({ text: source.text, offset: piece.offset, bar, repeats: source.repeats ?? source.bar });
    }
  });
  return { cells, problems };
}

interface Piece {
  readonly text: string;
  readonly offset: number;
}

function splitAtBarLines(line: string): Piece[] {
  const pieces: Piece[] = [];
  let start = 0;
  for (const raw of line.split("|")) {
    pieces.push({ text: raw.trim(), offset: start + (raw.length - raw.trimStart().length) });
    start += raw.length + 1;
  }
  return pieces;
}

function cellProblem(piece: Piece, bar: number): Problem | undefined {
  const where = { pointer: "", offset: piece.offset };
  if (piece.text === "") return problem("BAR_EMPTY", `bar ${bar} is empty`, where, "write a rest that fills it, or %");
  if (piece.text.includes("%") && piece.text !== "%") {
    return problem("SIMILE_WITHOUT_BAR", `a % stands alone in its bar; in bar ${bar} it does not`, where);
  }
  if (piece.text === "%" && bar <= 1) {
    return problem("SIMILE_WITHOUT_BAR", "a % repeats the bar before; there is none before bar 1", where);
  }
  return undefined;
}

function countProblems(written: readonly Piece[], firstBar: number, count: number, end: number): Problem[] {
  const found = written.length - (1 - firstBar);
  if (found === count) return [];
  const offset = found > count ? written[count + (1 - firstBar)]!.offset : end;
  const message = `the line has as many bars as the pattern, ${count}; found ${found}`;
  return [problem("BAR_COUNT_DIFFERS", message, { pointer: "", offset })];
}
