import { type Problem, problemsOf } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { isHeardOnly } from "../../pattern/index.js";
import { pointerTo } from "../../schema/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);

/** What a page cannot play of a course: its recordings. An error for a part without notes, which would be silent; advice for one whose notes are heard instead. */
export function unplayableOnPage({ patterns }: Curriculum, file: string): readonly Problem[] {
  return Object.entries(patterns).flatMap(([pattern, { parts }]) =>
    parts.flatMap((part): readonly Problem[] => {
      if (part.recorded === undefined) return [];
      const where = { file, pointer: pointerTo(["patterns", pattern, "parts", part.name]) };
      const named = { part: part.name, pattern };
      if (!isHeardOnly(part))
        return [problem("PAGE_PLAYS_NOTES", sayProblem("cli-problem.page-plays-notes", named), where)];
      const message = sayProblem("cli-problem.page-without-recording", named);
      return [
        problem("PAGE_WITHOUT_RECORDING", message, where, sayProblem("cli-problem.page-without-recording-remedy")),
      ];
    }),
  );
}
