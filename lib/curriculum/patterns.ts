import type { Problem } from "../base/index.js";
import { compilePattern, type Instrument, type Pattern } from "../pattern/index.js";
import { type CurriculumDocument, pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";
import { filesOf, type ReadFile } from "./files.js";
import { type Keeper, placedAt } from "./keeper.js";
import { MOST_NOTES, MOST_NOTES_IN_PATTERN } from "./limits.js";
import { notesWritten } from "./work.js";

interface PatternSurroundings {
  readonly instruments: Readonly<Record<string, Instrument>>;
  readonly readFile: ReadFile;
  readonly problems: Keeper;
}

/** The patterns without errors, by name. */
export function patternsOf(
  document: CurriculumDocument,
  { instruments, readFile, problems }: PatternSurroundings,
): Readonly<Record<string, Pattern>> {
  const files = filesOf(document.patterns, readFile);
  const refused = new Set(files.problems.map((each) => each.where.pointer));
  problems.keep(files.problems);
  const patterns: [string, Pattern][] = [];
  let notes = 0;
  for (const [name, written] of Object.entries(document.patterns)) {
    if (notes >= MOST_NOTES) {
      problems.keep([tooManyNotes(name)]);
      return Object.fromEntries(patterns);
    }
    const mostNotes = Math.min(MOST_NOTES_IN_PATTERN, MOST_NOTES - notes);
    const compiled = compilePattern(name, written, { instruments, files: (path) => files.bytes.get(path), mostNotes });
    // A file that was refused is not missing as well.
    problems.keep(placedAt(compiled, ["patterns", name]).filter((each) => !refused.has(each.where.pointer)));
    if (compiled.ok) patterns.push([name, compiled.value]);
    notes += compiled.ok ? notesIn(compiled.value) : Math.min(notesWritten(written), MOST_NOTES_IN_PATTERN);
  }
  return Object.fromEntries(patterns);
}

function tooManyNotes(pattern: string): Problem {
  const message = `all patterns of a course together hold ${MOST_NOTES} notes, variants and repeated bars included; before ${JSON.stringify(pattern)} they already do`;
  return problem("COURSE_TOO_LARGE", message, { pointer: pointerTo(["patterns", pattern]) }, "split the course");
}

function notesIn(pattern: Pattern): number {
  return pattern.parts.flatMap((part) => Object.values(part.variants)).reduce((sum, notes) => sum + notes.length, 0);
}
