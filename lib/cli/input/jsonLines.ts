import { failure, type Problem, problemsOf, type Result, success } from "../../base/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);

/** Most levels of nesting in JSON; our choice: nothing leeway reads needs more than 12, and parsers take seconds for millions. */
const DEEPEST = 64;

/** The value of a JSON text, or the place of its first error. */
export function parseJson(text: string): Result<unknown> {
  if (isDeeperThan(text, DEEPEST)) {
    return failure(problem("JSON_TOO_DEEP", sayProblem("cli-problem.json-too-deep", { most: DEEPEST })));
  }
  try {
    return success(JSON.parse(text));
  } catch (error) {
    return failure(syntaxProblem(text, error instanceof Error ? error.message : ""));
  }
}

/** A line that is not empty, with its number, counted from 1. */
export interface NumberedLine {
  readonly line: number;
  readonly text: string;
}

/** The lines of a JSON Lines text, without empty ones. */
export function linesOf(text: string): readonly NumberedLine[] {
  return text.split("\n").flatMap((piece, i) => (piece.trim() === "" ? [] : [{ line: i + 1, text: piece }]));
}

/** A problem of a line, with its place in the file. */
export function onLine(each: Problem, file: string, line: number): Problem {
  return { ...each, where: { ...each.where, file, line } };
}

function syntaxProblem(text: string, message: string): Problem {
  const position = /position (\d+)/.exec(message)?.[1];
  const before = position === undefined ? undefined : text.slice(0, Number(position));
  const where =
    before === undefined ? {} : { line: before.split("\n").length, column: before.length - before.lastIndexOf("\n") };
  const said = message.replace(/ in JSON at position.*$/s, "").replace(/, \.{3}.*$/s, "");
  return problem("JSON_SYNTAX", sayProblem("cli-problem.json-syntax", { said }), where);
}

function isDeeperThan(text: string, most: number): boolean {
  let depth = 0;
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const character = text[i];
    if (quoted) {
      if (character === "\\") i += 1;
      else if (character === '"') quoted = false;
    } else if (character === '"') quoted = true;
    else if (character === "[" || character === "{") {
      depth += 1;
      if (depth > most) return true;
    } else if (character === "]" || character === "}") depth -= 1;
  }
  return false;
}
