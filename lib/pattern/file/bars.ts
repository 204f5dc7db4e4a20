import { add, compare, type Fraction, subtract, type Worded } from "../../base/index.js";
import { barLength } from "../../time/index.js";
import { problem } from "../codes.js";
import { type Frame, lengthText } from "../compile/bars.js";
import { withoutLooseSlurs } from "../marks.js";
import type { Note } from "../model.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";

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
  const where = { pointer: "/bars" };
  const read = parseBars(text, frame, where.pointer);
  if ("code" in read) return { first: 1, problems: [read] };
  const { first, bars: count } = read;
  if (count === frame.bars.length) return { first, problems: [] };
  const message = say("pattern-problem.file-bar-count-differs", { found: text, count, bars: frame.bars.length });
  const remedy = say("pattern-problem.file-bar-count-differs-remedy", { text: spanOf(first, frame), count });
  return { first, problems: [problem("FILE_BAR_COUNT_DIFFERS", message, where, remedy)] };
}

/** Reads a range of bars, counted from 1: "1-4", "3". The problem is FILE_BARS_NOT_READ. */
export function parseBars(text: string, frame: Frame, pointer: string): { first: number; bars: number } | Problem {
  const match = /^\s*(\d{1,5})\s*(?:[-–]\s*(\d{1,5})\s*)?$/.exec(text);
  const [first, last] = [Number(match?.[1] ?? 0), Number(match?.[2] ?? match?.[1] ?? 0)];
  if (match && first >= 1 && last >= first) return { first, bars: last - first + 1 };
  const message = say("pattern-problem.file-bars-not-read", { found: JSON.stringify(text.slice(0, 20)) });
  return problem("FILE_BARS_NOT_READ", message, { pointer }, say("pattern-problem.write", { text: spanOf(1, frame) }));
}

/** As many bars as the pattern has, from one on: "3-6". */
export function spanOf(first: number, frame: Frame): string {
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
    const wanted = lengthText(barLength(own.meter), own.meter);
    const message = say("pattern-problem.file-meter-differs", { bar: own.number, length, wanted });
    const remedy = say("pattern-problem.file-meter-differs-remedy", { length });
    problems.push(problem("FILE_METER_DIFFERS", message, where, remedy));
  });
  if (problems.length > 0) return { notes: [], problems };
  const start = bars[0]!.position;
  const [from, to] = [subtract(start, frame.pickup), add(start, frame.length)];
  const inside = notes.filter((n) => compare(n.position, from) >= 0 && compare(n.position, to) < 0);
  const cut = notes.filter((n) => compare(n.position, from) < 0 && compare(add(n.position, n.length), from) > 0).length;
  const taken = inside.map((note) => {
    const position = subtract(note.position, start);
    const room = subtract(to, note.position);
    return compare(note.length, room) > 0
      ? { ...note, position, length: room, endLate: undefined }
      : { ...note, position };
  });
  const ringing = inside.filter((n, i) => compare(n.length, taken[i]!.length) > 0).length;
  if (cut + ringing > 0)
    problems.push(problem("FILE_NOTE_CUT", cutText(cut, ringing), where, say("pattern-problem.file-note-cut-remedy")));
  if (taken.length === 0) {
    const message = say("pattern-problem.file-without-notes");
    problems.push(problem("FILE_WITHOUT_NOTES", message, where, say("pattern-problem.file-without-notes-remedy")));
  }
  const beside = taken.filter((note) => FINEST_GRID % note.position.d !== 0).length;
  if (beside > 0) {
    const message = say("pattern-problem.file-off-grid", { count: beside, notes: taken.length });
    problems.push(problem("FILE_OFF_GRID", message, where, say("pattern-problem.file-off-grid-remedy")));
  }
  const chords = taken.filter((n, i) => i > 0 && n.pitch && compare(n.position, taken[i - 1]!.position) === 0).length;
  if (chords > 0) {
    const message = say("pattern-problem.file-chords", { count: chords });
    problems.push(problem("FILE_CHORDS", message, where, say("pattern-problem.file-chords-remedy")));
  }
  return { notes: withoutLooseSlurs(taken), problems };
}

/** What is said of notes at the ends of the bars taken: before the first, after the last, or both. */
function cutText(before: number, after: number): Worded {
  const first = say("pattern-problem.file-note-cut-before", { count: before });
  const last = say("pattern-problem.file-note-cut-after", { count: after });
  if (after === 0) return first;
  return before === 0 ? last : say("pattern-problem.file-note-cut", { before: first.message, after: last.message });
}
