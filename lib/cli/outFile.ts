import { closeSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { failure, type Problem, problemsOf, type Result, success } from "../index.js";
import { fileCodes } from "./codes.js";

const problem = problemsOf(fileCodes);

/** A file being written, which has its name only once it is complete. */
export interface OutFile {
  readonly write: (text: string) => void;
  finish(): void;
  abandon(): void;
}

/** Begins a file about people: for the owner's eyes. */
export function openOut(path: string): Result<OutFile> {
  const part = `${path}.part`;
  try {
    const descriptor = openSync(part, "w", 0o600);
    return success({
      write: (text) => void writeSync(descriptor, text),
      finish: () => {
        closeSync(descriptor);
        renameSync(part, path);
      },
      abandon: () => {
        closeSync(descriptor);
        rmSync(part, { force: true });
      },
    });
  } catch (error) {
    return failure(unwritable(path, error));
  }
}

/** Why a file could not be written. */
export function unwritable(file: string, error: unknown): Problem {
  const code = error instanceof Error && "code" in error ? String(error.code) : "unknown reason";
  const remedy = "check the folder, its permissions and its room";
  return problem("OUTPUT_UNWRITABLE", `cannot be written (${code})`, { file }, remedy);
}
