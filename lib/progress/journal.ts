import type { Problem } from "../base/index.js";
import type { JournalEvent } from "../schema/index.js";
import { canonicalJson } from "./canonicalJson.js";
import { progressProblem } from "./codes.js";
import { type CountingOptions, openCounting } from "./counting.js";
import { follows } from "./eventOrder.js";
import { readEvent } from "./eventShape.js";
import { type Folding, fold } from "./fold.js";

export interface ReadJournal {
  /** What the lines hold, in their order; `fold` finds out whether they are events. */
  readonly events: readonly JournalEvent[];
  /** Line (1-based) of each of them. */
  readonly lines: readonly number[];
  readonly problems: readonly Problem[];
}

/**
 * Reads a journal: JSON Lines, one event a line, empty lines passed over. A line that is not JSON is left out and named
 * (JOURNAL_LINE_NOT_JSON), the others are kept. The empty text is an empty journal.
 *
 * @example
 * const { events, lines, problems } = readJournal(text);
 * const { standing } = fold(events, { lines });
 */
export function readJournal(text: string): ReadJournal {
  const events: JournalEvent[] = [];
  const lines: number[] = [];
  const problems: Problem[] = [];
  eachLine(text, (held, line) => {
    if ("code" in held) problems.push({ ...held, where: { line } });
    else {
      events.push(held.value as JournalEvent);
      lines.push(line);
    }
    return undefined;
  });
  return { events, lines, problems };
}

/**
 * The standing a journal's text amounts to, as `fold` of what `readJournal` reads; lines in order are counted as they are read, so that
 * a journal of any length takes little memory beside the standing.
 */
export function foldJournal(text: string, options: CountingOptions & { readonly file?: string } = {}): Folding {
  const counting = openCounting(options);
  const problems: Problem[] = [];
  const note = (line: number, problem: Problem): undefined => {
    problems.push({ ...problem, where: { ...(options.file === undefined ? {} : { file: options.file }), line } });
  };
  let before: JournalEvent | undefined;
  const sorted = eachLine(text, (held, line) => {
    if ("code" in held) return note(line, held);
    const event = readEvent(held.value);
    if ("code" in event) return note(line, event);
    if (before !== undefined && !follows(before, event)) return false;
    before = event;
    for (const problem of counting.count(event)) note(line, problem);
    return undefined;
  });
  if (sorted) return { standing: counting.close(), problems };
  const { events, lines, problems: unread } = readJournal(text);
  const folding = fold(events, { ...options, lines });
  problems.length = 0;
  for (const problem of unread) note(problem.where.line!, problem);
  const all = [...problems, ...folding.problems].sort((a, b) => a.where.line! - b.where.line!);
  return { standing: folding.standing, problems: all };
}

/** Events as lines of a journal, to be appended to it: canonical JSON, each with its line end. */
export function journalText(events: readonly JournalEvent[]): string {
  return events.map((event) => `${canonicalJson(event)}\n`).join("");
}

/** What a line holds, or the problem with it. */
type Line = { readonly value: unknown } | Problem;

/** Hands over each line that is not empty until told to stop with `false`; false when it was. */
function eachLine(text: string, take: (held: Line, line: number) => false | undefined): boolean {
  let line = 0;
  for (let from = 0; from < text.length; ) {
    const end = text.indexOf("\n", from);
    const piece = text.slice(from, end < 0 ? text.length : end);
    from = end < 0 ? text.length : end + 1;
    line++;
    const held = piece === "" ? undefined : parsed(piece);
    if (held !== undefined && take(held, line) === false) return false;
  }
  return true;
}

function parsed(piece: string): Line | undefined {
  try {
    return { value: JSON.parse(piece) };
  } catch {
    if (piece.trim() === "") return undefined;
    const message = `a line of a journal must be one event in JSON, found ${JSON.stringify(piece.slice(0, 60))}`;
    return progressProblem("JOURNAL_LINE_NOT_JSON", message);
  }
}
