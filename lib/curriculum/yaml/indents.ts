import type { YAMLError } from "yaml";
import type { Worded } from "../../base/index.js";
import { problem } from "../codes.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import { errorsIn } from "./composed.js";
import type { Mended } from "./mended.js";
import type { PlaceAt } from "./tokens.js";

/** A line that begins in another column than it is meant to, and the text with it moved. */
export interface Moved {
  readonly text: string;
  /** Line from 1. */
  readonly line: number;
  /** Columns from 1. */
  readonly found: number;
  readonly meant: number;
  /** Lines that move with it, itself included: those that stand below it. */
  readonly lines: number;
}

/** Most lines that are tried, and columns for each. Our choice: what is wrong stands at the first error or right beside it. */
const MOST_TRIED = 2;

/**
 * The line whose indentation the errors come from, as one problem, when it leaves the fewest errors in the column of a line near it; fewer than there are.
 * YAML itself complains of the lines behind, each for itself.
 */
export function movedLine(text: string, placeAt: PlaceAt, errors: readonly YAMLError[]): Mended | undefined {
  const lines = text.split("\n");
  const first = Math.min(...errors.map(({ pos }) => placeAt(pos[0]).line - 1));
  const here = lines.findIndex((line, i) => i >= first && isKey(line));
  if (here === -1) return undefined;
  const before = lines.findLastIndex((line, i) => i < here && isKey(line));
  const parent = lines.findLastIndex((line, i) => i < here && isKey(line) && indentOf(line) < indentOf(lines[here]!));
  const behind = lines.findIndex((line, i) => i > here && isKey(line));
  let best: { readonly moved: Moved; readonly errors: readonly YAMLError[] } | undefined;
  for (const at of new Set([here, before, parent, behind].filter((each) => each !== -1))) {
    for (const moved of movesOf(lines, at)) {
      if (best?.errors.length === 0 && (isToLeft(moved) || !isToLeft(best.moved))) continue;
      const left = errorsIn(moved.text);
      if (left === undefined || left.length >= errors.length) continue;
      // Of equals one that moves to the right: a line is more often left of its place.
      const fewer = left.length - (best?.errors ?? errors).length;
      if (fewer < 0 || (fewer === 0 && isToLeft(best?.moved) && !isToLeft(moved))) best = { moved, errors: left };
    }
  }
  return best && { text: best.moved.text, errors: best.errors, problem: misplaced(best.moved) };
}

/** The ways in which a line may have been meant: in the columns of lines around it, further to the right first, with and without the lines below it. */
export function movesOf(lines: readonly string[], at: number): readonly Moved[] {
  const found = indentOf(lines[at]!);
  const columns = new Set<number>();
  const add = (line: string | undefined): void => {
    if (line !== undefined && indentOf(line) !== found) columns.add(indentOf(line));
  };
  add(lines.find((line, i) => i > at && isKey(line)));
  let least = Number.POSITIVE_INFINITY;
  for (const line of lines.slice(0, at).toReversed()) {
    if (!isKey(line) || indentOf(line) >= least) continue;
    least = indentOf(line);
    add(line);
  }
  const below = lines.slice(at + 1).findIndex((line) => isKey(line) && indentOf(line) <= found);
  const block = below === -1 ? lines.length - at : below + 1;
  const tried = [...columns].sort(
    (a, b) => Number(a < found) - Number(b < found) || Math.abs(a - found) - Math.abs(b - found),
  );
  return tried.slice(0, MOST_TRIED).flatMap((meant) =>
    [...new Set([1, block])].map((count) => ({
      text: lines.map((line, i) => (i >= at && i < at + count ? shifted(line, meant - found) : line)).join("\n"),
      line: at + 1,
      found: found + 1,
      meant: meant + 1,
      lines: count,
    })),
  );
}

/** YAML_SYNTAX for a line that was found to be misplaced. */
function misplaced(moved: Moved): Problem {
  const { line, found, meant } = moved;
  const message = say("curriculum-problem.yaml-syntax-indent", { found, meant });
  return problem("YAML_SYNTAX", message, { line, column: found, pointer: "" }, moveRemedy(moved));
}

/** By how many blanks a line is to be moved, and to which side. */
export function moveRemedy({ found, meant }: Pick<Moved, "found" | "meant">): Worded {
  const blanks = Math.abs(meant - found);
  return say(`curriculum-problem.yaml-syntax-indent-${meant > found ? "in" : "out"}`, { blanks });
}

function isToLeft(moved: Moved | undefined): boolean {
  return moved !== undefined && moved.meant < moved.found;
}

/** Whether a line has something beside a comment. */
function isKey(line: string): boolean {
  return /^ *[^\s#]/.test(line);
}

function indentOf(line: string): number {
  return line.search(/[^ ]/);
}

function shifted(line: string, by: number): string {
  if (by > 0) return line.trim() === "" ? line : " ".repeat(by) + line;
  return line.slice(Math.min(-by, Math.max(0, indentOf(line))));
}
