import { type Problem, type Result, success } from "../../base/index.js";
import { fold, readJournal } from "../../progress/index.js";
import type { JournalEvent, Standing } from "../../schema/index.js";
import type { Setting } from "../outcome.js";
import { readText } from "./inputFile.js";

/** Most bytes of a journal or of a file of findings; our choice: some hundred thousand events. */
export const JOURNAL_LIMIT = 256_000_000;

/** A journal in a file: its readable events, and the problems of the others. */
export interface JournalFile {
  readonly events: readonly JournalEvent[];
  /** Absent when nobody is enrolled in it, or not the student in the course that was asked for. */
  readonly standing?: Standing;
  readonly problems: readonly Problem[];
}

/** Reads and folds a journal in a file: that of one student and course when the file has several. Fails only when the file cannot be read. */
export function readJournalFile(
  { sources }: Setting,
  file: string,
  of?: { readonly student: string; readonly curriculum: string },
): Result<JournalFile> {
  const text = readText(file, JOURNAL_LIMIT);
  if (!text.ok) return text;
  sources.set(file, text.value);
  const { events, lines, problems } = readJournal(text.value);
  const folded = fold(events, { lines, file, ...(of && { of }) });
  return success({
    events,
    ...(folded.standing && { standing: folded.standing }),
    problems: [...problems.map((each) => ({ ...each, where: { file, ...each.where } })), ...folded.problems],
  });
}
