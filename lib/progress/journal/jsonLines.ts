import type { JournalEvent } from "../../schema/index.js";
import type { Problem } from "../problem.js";
import { canonicalJson } from "./canonicalJson.js";
import { type Complaint, complaint } from "./complaint.js";
import { complaintProblem } from "./complaintProblem.js";
import { follows } from "./event/order.js";
import { examineEvent } from "./event/shape.js";
import { type Folding, fold } from "./fold.js";
import { currentEvent } from "./formerEvent.js";
import { openReplay, type ReplayOptions } from "./replay.js";

export interface ReadJournal {
  /** The parsed lines, in their order. They are not checked: `fold` does that. */
  readonly events: readonly JournalEvent[];
  /** Line (1-based) of each of them. */
  readonly lines: readonly number[];
  readonly problems: readonly Problem[];
}

/**
 * Reads a journal in JSON Lines: one event per line; empty lines are skipped. A line that is not JSON is left out and reported
 * (JOURNAL_LINE_NOT_JSON); all others are kept. The empty text is an empty journal.
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
    if ("code" in held) problems.push({ ...complaintProblem(held), where: { line } });
    else {
      events.push(currentEvent(held.value) as JournalEvent);
      lines.push(line);
    }
    return undefined;
  });
  return { events, lines, problems };
}

/**
 * Computes the standing from the text of a journal: the same as `readJournal`, then `fold`. Lines in order are counted while they are read,
 * so a long journal needs little memory beside its standing.
 *
 * @example
 * foldJournal(journalText(events)).standing.student // "tern"
 */
export function foldJournal(text: string, options: ReplayOptions & { readonly file?: string } = {}): Folding {
  const replay = openReplay(options);
  const problems: Problem[] = [];
  const note = (line: number, problem: Problem): undefined => {
    problems.push({ ...problem, where: { ...(options.file === undefined ? {} : { file: options.file }), line } });
  };
  let before: JournalEvent | undefined;
  const sorted = eachLine(text, (held, line) => {
    if ("code" in held) return note(line, complaintProblem(held));
    const event = examineEvent(held.value);
    if ("code" in event) return note(line, complaintProblem(event));
    if (before !== undefined && !follows(before, event)) return false;
    before = event;
    for (const wrong of replay.count(event)) note(line, complaintProblem(wrong));
    return undefined;
  });
  if (sorted) return { standing: replay.close(), problems };
  const { events, lines, problems: unread } = readJournal(text);
  const folding = fold(events, { ...options, lines });
  problems.length = 0;
  for (const problem of unread) note(problem.where.line!, problem);
  const all = [...problems, ...folding.problems].sort((a, b) => a.where.line! - b.where.line!);
  return { standing: folding.standing, problems: all };
}

/**
 * Events as JSON Lines, to append to a journal: canonical JSON, each with a line end.
 *
 * @example
 * readJournal(journalText(events)).events.length === events.length // true
 */
export function journalText(events: readonly JournalEvent[]): string {
  return events.map((event) => `${canonicalJson(event)}\n`).join("");
}

/** The parsed value of a line, or what is wrong with it. */
type Line = { readonly value: unknown } | Complaint;

/** Calls `take` with each line that is not empty. Stops and gives false as soon as `take` returns false. */
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
    const found = JSON.stringify(piece.slice(0, 60));
    return complaint("JOURNAL_LINE_NOT_JSON", "journal-problem.journal-line-not-json", { found });
  }
}
