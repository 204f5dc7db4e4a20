import { problemsIn, resultOf } from "../base/index.js";
import { problem } from "./codes.js";
import { courseOf } from "./course.js";
import type { ReadFile, ReadRecording } from "./files.js";
import { MOST_PROBLEMS } from "./limits.js";
import { misplacedKey } from "./misplacedKey.js";
import type { Curriculum } from "./model.js";
import { withPatternFiles } from "./patternFiles.js";
import type { Problem, Result } from "./problem.js";
import { say } from "./say.js";
import { contentOf } from "./yaml/data.js";
import { documentOf } from "./yaml/document.js";
import { locator } from "./yaml/locate.js";
import { swallowedIn } from "./yaml/swallowed.js";

export interface ReadOptions {
  /** Name of the file, for the places of problems; it is not opened. */
  readonly file: string;
  /**
   * Gives the bytes of a MIDI or MusicXML file by its path as written, relative to the curriculum's folder; `undefined` when it cannot.
   * It is never called with a path that leaves the folder. Links inside the folder are for the caller to check.
   */
  readonly readFile: ReadFile;
  /**
   * Gives what is known of a recording by its path, as `readFile` does the bytes of a file: its checksum, format and length. `recordingFacts` of `leeway/node` works them out. Without it no
   * recording is found.
   */
  readonly readRecording?: ReadRecording;
}

/**
 * Reads a curriculum: the course with advice, or all problems, in the order of the text, each with file, line and column (1-based) and
 * JSON pointer.
 *
 * When the text is not YAML, only that is reported. When some patterns or drills are ill-formed, the others are still checked. The size
 * of the text is limited: TEXT_TOO_LARGE, TOO_MANY_TOKENS, NESTED_TOO_DEEPLY, ALIASES_TOO_LARGE.
 * Problems: the catalogues of this room, the schema, patterns, drills and time.
 *
 * @example
 * const course = readCurriculum(yamlText, { file: "course.yaml", readFile: () => undefined });
 * course.ok ? course.value.drills.map((drill) => drill.name) : course.problems.map((problem) => problem.message);
 */
export function readCurriculum(text: string, options: ReadOptions): Result<Curriculum> {
  const read = readAsWritten(text, options);
  const readAgain = (moved: string): Result<Curriculum> => readAsWritten(moved, options);
  return read.ok ? read : { ok: false, problems: misplacedKey(text, read.problems, readAgain) ?? read.problems };
}

function readAsWritten(text: string, options: ReadOptions): Result<Curriculum> {
  const { file, readFile, readRecording = () => undefined } = options;
  const source = documentOf(text);
  if (!source.ok) return { ok: false, problems: inFile(source.problems, file) };
  const content = contentOf(source.value);
  if (!content.ok) return { ok: false, problems: inFile(content.problems, file) };
  const locate = locator(source.value, content.value, file);
  const taken = withPatternFiles(content.value.value, file, readFile);
  const course = courseOf(taken.value, text.length + taken.length, { readFile, readRecording });
  const unread = [...content.value.problems, ...swallowedIn(source.value, content.value)];
  const replaced = new Set(unread.map((each) => each.where.pointer));
  // A value that could not be read was replaced: problems with the replacement are not reported.
  const judged = problemsIn(course).filter(
    (each) => !replaced.has(each.where.pointer) && !(taken.lacks && isLacking(each)),
  );
  const placed = [...unread, ...taken.problems, ...judged].map((each) => taken.placed(each) ?? locate(each));
  const problems = arranged(placed, file);
  return course.ok ? resultOf(course.value, problems) : { ok: false, problems };
}

/** What is said where patterns are missing only because their file is. */
function isLacking({ code, where }: Problem): boolean {
  return code === "PATTERN_UNKNOWN" || (code === "TOO_FEW" && where.pointer === "/patterns");
}

function inFile(problems: readonly Problem[], file: string): readonly Problem[] {
  return problems.map((each) => ({ ...each, where: { file, ...each.where } }));
}

/** Problems in the order of the text, those in files of patterns behind them, each once, at most MOST_PROBLEMS. */
function arranged(problems: readonly Problem[], file: string): readonly Problem[] {
  const distinct = new Map(
    problems.map((each) => [
      JSON.stringify([each.code, each.where.file, each.where.line, each.where.column, each.message]),
      each,
    ]),
  );
  const ordered = [...distinct.values()].sort(
    (a, b) =>
      Number(a.where.file !== file) - Number(b.where.file !== file) ||
      (a.where.line ?? 0) - (b.where.line ?? 0) ||
      (a.where.column ?? 0) - (b.where.column ?? 0),
  );
  if (ordered.length <= MOST_PROBLEMS) return ordered;
  // Errors are listed before advice, so that a shortened list never turns a failure into a success.
  const errors = ordered.filter((each) => each.severity === "error");
  const listed = new Set([...errors, ...ordered].slice(0, MOST_PROBLEMS));
  const message = say("curriculum-problem.too-many-problems", { more: ordered.length - MOST_PROBLEMS });
  const where = { line: 1, column: 1, pointer: "", file };
  return [...ordered.filter((each) => listed.has(each)), problem("TOO_MANY_PROBLEMS", message, where)];
}
