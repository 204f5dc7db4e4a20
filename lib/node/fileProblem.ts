import { type Problem, problemsOf } from "../base/index.js";
import { nodeCodes } from "./codes.js";
import { sayProblem } from "./say.js";

const problem = problemsOf(nodeCodes);

/** Why a file could not be written, from the error the system gave. */
export function writeProblem(file: string, error: unknown): Problem {
  const where = { file };
  const code = codeOf(error);
  const said = { error: code ?? textOf(error) };
  switch (code) {
    case "ENOSPC":
    case "EDQUOT":
    case "EFBIG": {
      const message = sayProblem("node-problem.output-disk-full", said);
      return problem("OUTPUT_DISK_FULL", message, where, sayProblem("node-problem.output-disk-full-remedy"));
    }
    case "EACCES":
    case "EPERM":
    case "EROFS": {
      const message = sayProblem("node-problem.output-not-allowed", said);
      return problem("OUTPUT_NOT_ALLOWED", message, where, sayProblem("node-problem.output-not-allowed-remedy"));
    }
    case "ENOENT": {
      const message = sayProblem("node-problem.output-folder-missing");
      return problem("OUTPUT_FOLDER_MISSING", message, where, sayProblem("node-problem.output-folder-missing-remedy"));
    }
    case "EISDIR":
    case "ENOTDIR":
    case "EEXIST":
    case "ENOTEMPTY": {
      const message = sayProblem("node-problem.output-name-taken", said);
      return problem("OUTPUT_NAME_TAKEN", message, where, sayProblem("node-problem.output-name-taken-remedy"));
    }
    default:
      return problem("OUTPUT_NOT_WRITTEN", sayProblem("node-problem.output-not-written", said), where);
  }
}

/** The system's code of an error, such as ENOSPC; `undefined` when it has none. */
export function codeOf(error: unknown): string | undefined {
  return error !== null && typeof error === "object" && "code" in error ? String(error.code) : undefined;
}

export function textOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
