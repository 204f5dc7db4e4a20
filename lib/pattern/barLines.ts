import type { Problem } from "../base/index.js";
import { problem } from "./codes.js";
import { type Frame, lengthText } from "./compile/bars.js";
import { say } from "./say.js";

/** The text between two bar lines. */
export interface Cell {
  readonly text: string;
  /** Index of the text in its line; for a repeated bar, the index of the `same` or `...` that repeats it. */
  readonly offset: number;
  /** Number of the bar; 0 for the pick-up. */
  readonly bar: number;
  /** For a repeated bar: the bar whose text it repeats. */
  readonly repeats?: number;
}

/**
 * Splits a line at its bar lines: one cell for each bar of the frame. `same` alone in a bar is the bar before; `...` alone at the end repeats
 * the bars so far, without the pick-up, to the end of the pattern.
 *
 * In a pattern with a pick-up, what stands before the first bar line is the pick-up. A line that leaves it out is told by its number of bars
 * and by `fillsPickup`, which says that a text is as long as the pick-up. A bar line may end the line, and begin it in a pattern without
 * pick-up. Problems, with offsets: BAR_EMPTY, BAR_COUNT_DIFFERS, PICKUP_MISSING, REPEAT_MISPLACED.
 */
export function cellsOf(
  line: string,
  frame: Frame,
  fillsPickup: (text: string) => boolean,
): { readonly cells: readonly Cell[]; readonly problems: readonly Problem[] } {
  const written = piecesOf(line);
  const ending = written.length > 1 && written.at(-1)!.text === REST_OF_PATTERN ? written.pop() : undefined;
  const count = frame.bars.length;
  const problems: Problem[] = [];
  const opens = written.length > 1 && written[0]!.text === "";
  if (opens) written.shift();
  const leavesOut =
    frame.pickup.n > 0 &&
    (opens || (ending === undefined && written.length === count && !fillsPickup(written[0]!.text)));
  if (leavesOut) problems.push(pickupMissing(frame, written[0]!.offset));
  const firstBar = frame.pickup.n > 0 && !leavesOut ? 0 : 1;
  const bars = written.length - (1 - firstBar);
  if (bars > count || (bars < count && ending === undefined)) {
    problems.push(countProblem(bars, count, bars > count ? written[count + 1 - firstBar]!.offset : line.length));
  }
  const cells: Cell[] = [];
  written.slice(0, count + 1 - firstBar).forEach((piece, i) => {
    const bar = firstBar + i;
    const found = pieceProblem(piece, bar);
    if (found) problems.push(found);
    else if (piece.text !== SAME) cells.push({ ...piece, bar });
    else repeat(cells, { bar, of: bar - 1, offset: piece.offset });
  });
  if (ending !== undefined && bars < 1) {
    const message = say("pattern-problem.repeat-misplaced-nothing-before");
    const remedy = say("pattern-problem.repeat-misplaced-nothing-before-remedy");
    problems.push(problem("REPEAT_MISPLACED", message, { pointer: "", offset: ending.offset }, remedy));
  } else if (ending !== undefined) {
    for (let bar = bars + 1; bar <= count; bar++) repeat(cells, { bar, of: bar - bars, offset: ending.offset });
  }
  return { cells, problems };
}

/** A text between bar lines and its index in the line, blanks around it left out. */
export interface Piece {
  readonly text: string;
  readonly offset: number;
}

/** The texts between bar lines. A bar line at the end of the line begins none. */
export function piecesOf(line: string): Piece[] {
  const pieces: Piece[] = [];
  let start = 0;
  for (const raw of line.split("|")) {
    pieces.push({ text: raw.trim(), offset: start + (raw.length - raw.trimStart().length) });
    start += raw.length + 1;
  }
  if (pieces.length > 1 && pieces.at(-1)!.text === "") pieces.pop();
  return pieces;
}

const SAME = "same";

const REST_OF_PATTERN = "...";

/** Adds a bar with the text of an earlier one; nothing when that one could not be read. */
function repeat(cells: Cell[], { bar, of, offset }: { bar: number; of: number; offset: number }): void {
  const source = cells.find((cell) => cell.bar === of);
  if (source) cells.push({ text: source.text, offset, bar, repeats: source.repeats ?? source.bar });
}

function pieceProblem(piece: Piece, bar: number): Problem | undefined {
  const where = { pointer: "", offset: piece.offset };
  if (piece.text === "") {
    const remedy = bar > 1 ? say("pattern-problem.bar-empty-remedy") : say("pattern-problem.write", { text: "rest" });
    return problem("BAR_EMPTY", say("pattern-problem.bar-empty", placeOf(bar)), where, remedy);
  }
  const words = piece.text.split(/\s+/);
  const repeats = words.find((word) => word === SAME || word === REST_OF_PATTERN);
  if (repeats === undefined) return undefined;
  const offset = piece.offset + piece.text.indexOf(repeats);
  if (words.length > 1) {
    const message = say("pattern-problem.repeat-misplaced-in-company", { word: repeats, ...placeOf(bar) });
    const remedy = say("pattern-problem.write", { text: `| ${repeats}` });
    return problem("REPEAT_MISPLACED", message, { pointer: "", offset }, remedy);
  }
  if (repeats === REST_OF_PATTERN) {
    const message = say("pattern-problem.repeat-misplaced-before-end", placeOf(bar));
    const remedy =
      bar > 1
        ? say("pattern-problem.write", { text: SAME })
        : say("pattern-problem.repeat-misplaced-in-bar-one-remedy");
    return problem("REPEAT_MISPLACED", message, where, remedy);
  }
  if (bar > 1) return undefined;
  return problem(
    "REPEAT_MISPLACED",
    say("pattern-problem.repeat-misplaced-in-bar-one"),
    where,
    say("pattern-problem.repeat-misplaced-in-bar-one-remedy"),
  );
}

function pickupMissing(frame: Frame, offset: number): Problem {
  const length = lengthText(frame.pickup, frame.bars[0]!.meter);
  const remedy = say("pattern-problem.pickup-missing-remedy");
  return problem("PICKUP_MISSING", say("pattern-problem.pickup-missing", { length }), { pointer: "", offset }, remedy);
}

function countProblem(found: number, count: number, offset: number): Problem {
  const message = say("pattern-problem.bar-count-differs", { found, count });
  const remedy =
    found > count
      ? say("pattern-problem.bar-count-differs-remedy-more")
      : say("pattern-problem.bar-count-differs-remedy-fewer");
  return problem("BAR_COUNT_DIFFERS", message, { pointer: "", offset }, remedy);
}

/** A bar as messages name it; 0 is the pick-up. */
export function placeOf(bar: number): { readonly place: "pick-up" | "bar"; readonly bar: number } {
  return { place: bar === 0 ? "pick-up" : "bar", bar };
}
