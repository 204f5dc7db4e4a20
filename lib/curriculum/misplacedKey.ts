import { problemsIn } from "../base/index.js";
import { LARGEST_MENDED } from "./limits.js";
import type { Problem, Result } from "./problem.js";
import { say } from "./say.js";
import { type Moved, moveRemedy, movesOf } from "./yaml/indents.js";

/** Lines that are tried. Our choice: each is read some four times. */
const MOST_LINES = 4;

/**
 * The problems of a course, where one line of it stands in another column than it is meant to: as one problem, with what is left once it is moved. YAML reads
 * such a line as a key of something else, which then has a key too many, and what it belongs to one too few. `undefined` when no line moved leaves fewer
 * errors, none of them new and none in that line.
 */
export function misplacedKey<T>(
  text: string,
  problems: readonly Problem[],
  readAgain: (text: string) => Result<T>,
): readonly Problem[] | undefined {
  const [main] = problems;
  if (text.length > LARGEST_MENDED || main === undefined) return undefined;
  const errors = problems.filter(isError);
  const known = new Set(errors.map(placeOf));
  const lines = text.split("\n");
  const tried = errors.filter(isOfLine(lines)).map(({ where }) => where.line!);
  for (const line of [...new Set(tried)].slice(0, MOST_LINES)) {
    for (const moved of movesOf(lines, line - 1)) {
      const after = problemsIn(readAgain(moved.text));
      const left = after.filter(isError);
      const isWithin = ({ where }: Problem): boolean => where.line! >= line && where.line! < line + moved.lines;
      if (left.length >= errors.length || left.some((each) => isWithin(each) || !known.has(placeOf(each)))) continue;
      return [misplaced(moved, errors), ...after.filter((each) => !isWithin(each))];
    }
  }
  return undefined;
}

/** Whether a problem may come from the column of its line: with a key that nothing knows, or with a pattern or drill that is none, where they begin the line. */
function isOfLine(lines: readonly string[]): (found: Problem) => boolean {
  return ({ code, where }) => {
    const { line = 0, column, pointer = "" } = where;
    const written = lines[line - 1] ?? "";
    if (code === "UNKNOWN_KEY") return column === written.search(/\S/) + 1;
    return (code === "MISSING_KEY" || code === "WRONG_TYPE") && /^\/(?:patterns|drills)\/[^/]+$/.test(pointer);
  };
}

function isError({ severity }: Problem): boolean {
  return severity === "error";
}

function placeOf({ code, where }: Problem): string {
  return `${code} ${where.file} ${where.line}`;
}

function misplaced(moved: Moved, errors: readonly Problem[]): Problem {
  const { line, found, meant } = moved;
  const { where } = errors.find((each) => each.where.line === line)!;
  const message = say("curriculum-problem.misplaced-key", { found, meant });
  const remedy = moveRemedy(moved);
  return {
    code: "UNKNOWN_KEY",
    severity: "error",
    message: message.says,
    where: { ...where, column: found },
    remedy: remedy.says,
    words: { message: message.message, remedy: remedy.message },
  };
}
