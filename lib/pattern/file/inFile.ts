import { type Place, type Problem, problemInside } from "../../base/index.js";
import { say } from "../say.js";

/**
 * A problem inside a file, as one with what names the file: `path` and the place inside the file become part of the sentence, because the place of
 * the problem is that of the name.
 */
export function inFile(problem: Problem, path: string, where: Place): Problem {
  const { line, column, offset } = problem.where;
  const file = path.slice(0, 100);
  const named = problemInside(problem, (sentence) => {
    if (line !== undefined)
      return say("pattern-problem.in-file-at-line", { file, problem: sentence, line: `${line}`, column: `${column}` });
    return offset === undefined
      ? say("pattern-problem.in-file", { file, problem: sentence })
      : say("pattern-problem.in-file-at-byte", { file, problem: sentence, byte: `${offset}` });
  });
  return { ...named, where };
}
