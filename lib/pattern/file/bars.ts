import { add, compare, type Fraction, type Problem, subtract } from "../../base/index.js";
import { barLength } from "../../time/index.js";
import { problem } from "../codes.js";
import { type Frame, lengthText } from "../compile/bars.js";
import type { Note } from "../model.js";

/** The notes taken from a file for a part of a pattern, with the problems found. */
export interface FilePart {
  readonly notes: readonly Note[];
  readonly kind: "pitched" | "percussion";
  readonly problems: readonly Problem[];
}

/** Finest grid of written notes, places to a whole note. Our choice: sixty-fourths and their triplets. Notes of a notation program lie on it, played notes do not. */
const FINEST_GRID = 192;

/** A bar of a file. */
export interface FileBar {
  readonly position: Fraction;
  readonly length: Fraction;
}

/** Reads the range of bars to take, counted from 1: "1-4", "3"; from bar 1 when absent. Problems: FILE_BARS_NOT_READ, FILE_BAR_COUNT_DIFFERS. */
export function readBarRange(text: string | undefined, frame: Frame): { first: number; problems: readonly Problem[] } {
  if (text === undefined) return { first: 1, problems: [] };
  const match = /^\s*(\d{1,5})\s*(?:[-–]\s*(\d{1,5})\s*)?$/.exec(text);
  const [first, last] = [Number(match?.[1] ?? 0), Number(match?.[2] ?? match?.[1] ?? 0)];
  const where = { pointer: "/bars" };
  if (!match || first < 1 || last < first) {
    const message = `the bars of a file are written as 1-4 or 3, counted from 1; found ${JSON.stringify(text.slice(0, 20))}`;
    return { first: 1, problems: [problem("FILE_BARS_NOT_READ", message, where, `write ${spanOf(1, frame)}`)] };
  }
  const count = last - first + 1;
  if (count === frame.bars.length) return { first, problems: [] };
  const message = `${text} ${count === 1 ? "is 1 bar" : `are ${count} bars`} of the file; the pattern has ${frame.bars.length}`;
  const remedy = `write ${spanOf(first, frame)}, or bars: ${count} in the pattern`;
  return { first, problems: [problem("FILE_BAR_COUNT_DIFFERS", message, where, remedy)] };
}

/** As many bars as the pattern has, from one on: "3-6". */
function spanOf(first: number, frame: Frame): string {
  const count = frame.bars.length;
  return count === 1 ? `${first}` : `${first}-${first + count - 1}`;
}

/**
 * The notes of a file that begin in the bars taken, or in the pick-up before them, at their positions in the pattern.
 *
 * `bars` are the bars taken, one for each bar of the frame. Problems: FILE_METER_DIFFERS, FILE_WITHOUT_NOTES; advice: FILE_NOTE_CUT, FILE_OFF_GRID,
 * FILE_CHORDS.
 */
export function notesInBars(
  notes: readonly Note[],
  bars: readonly FileBar[],
  frame: Frame,
): { readonly notes: readonly Note[]; readonly problems: readonly Problem[] } {
  const where = { pointer: "/file" };
  const problems: Problem[] = [];
  bars.forEach((bar, i) => {
    const own = frame.bars[i]!;
    if (compare(bar.length, barLength(own.meter)) === 0) return;
    const length = lengthText(bar.length, own.meter);
    const message = `bar ${own.number} is ${length} long in the file and ${lengthText(barLength(own.meter), own.meter)} in the pattern`;
    problems.push(
      problem(
        "FILE_METER_DIFFERS",
        message,
        where,
        `give that bar of the pattern the meter ${length}, or take other bars of the file`,
      ),
    );
  });
  if (problems.length > 0) return { notes: [], problems };
  const start = bars[0]!.position;
  const [from, to] = [subtract(start, frame.pickup), add(start, frame.length)];
  const inside = notes.filter((n) => compare(n.position, from) >= 0 && compare(n.position, to) < 0);
  const cut = notes.filter((n) => compare(n.position, from) < 0 && compare(add(n.position, n.length), from) > 0).length;
  const taken = inside.map((note) => {
    const length = shorter(note.length, subtract(to, note.position));
    return { ...note, position: subtract(note.position, start), length };
  });
  const ringing = inside.filter((n, i) => compare(n.length, taken[i]!.length) > 0).length;
  if (cut + ringing > 0) {
    const said = [
      ...(cut === 0
        ? []
        : [
            cut === 1
              ? "1 note begins before the first bar taken and is left out"
              : `${cut} notes begin before the first bar taken and are left out`,
          ]),
      ...(ringing === 0
        ? []
        : [
            ringing === 1
              ? "1 note rings past the last bar and is cut there"
              : `${ringing} notes ring past the last bar and are cut there`,
          ]),
    ];
    problems.push(
      problem(
        "FILE_NOTE_CUT",
        said.join("; "),
        where,
        "take bars at whose ends nothing rings on, or end the notes there in the file",
      ),
    );
  }
  if (taken.length === 0)
    problems.push(
      problem(
        "FILE_WITHOUT_NOTES",
        "the bars taken from the file hold no notes",
        where,
        "name other bars, or another track or part of the file",
      ),
    );
  const beside = taken.filter((note) => FINEST_GRID % note.position.d !== 0).length;
  if (beside > 0) {
    const message = `written notes lie on a grid of sixty-fourths or their triplets; ${beside} of ${taken.length} do not: the file was played rather than written, and a take is judged against it as it stands`;
    problems.push(problem("FILE_OFF_GRID", message, where, "quantise it before exporting"));
  }
  const chords = taken.filter((n, i) => i > 0 && n.pitch && compare(n.position, taken[i - 1]!.position) === 0).length;
  if (chords > 0) {
    const message = `${chords} notes sound together with another; to a student such notes are one onset`;
    problems.push(problem("FILE_CHORDS", message, where, "write a riff of single notes, unless chords are meant"));
  }
  return { notes: taken, problems };
}

function shorter(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) <= 0 ? a : b;
}
