import { type Problem, problemsOf } from "../base/index.js";
import { nodeCodes } from "./codes.js";

const problem = problemsOf(nodeCodes);
const RESUME = "then run the same again: what is finished is not made twice";

/** Why a file could not be written, from the error the system gave. */
export function writeProblem(file: string, error: unknown): Problem {
  const where = { file };
  const code = codeOf(error);
  switch (code) {
    case "ENOSPC":
    case "EDQUOT":
    case "EFBIG":
      return problem(
        "OUTPUT_DISK_FULL",
        `cannot be written: the disk is full (${code})`,
        where,
        `make room, ${RESUME}`,
      );
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return problem(
        "OUTPUT_NOT_ALLOWED",
        `cannot be written: it may not be (${code})`,
        where,
        "choose another folder",
      );
    case "ENOENT":
      return problem(
        "OUTPUT_FOLDER_MISSING",
        "cannot be written: its folder is not there",
        where,
        `make the folder, ${RESUME}`,
      );
    case "EISDIR":
    case "ENOTDIR":
    case "EEXIST":
    case "ENOTEMPTY": {
      const message = `cannot be written: a folder or file of another kind is in its way (${code})`;
      return problem("OUTPUT_NAME_TAKEN", message, where, "move it away or choose another folder");
    }
    default:
      return problem("OUTPUT_NOT_WRITTEN", `cannot be written (${code ?? textOf(error)})`, where);
  }
}

/** The system's code of an error, such as ENOSPC; `undefined` when it has none. */
export function codeOf(error: unknown): string | undefined {
  return error !== null && typeof error === "object" && "code" in error ? String(error.code) : undefined;
}

export function textOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
