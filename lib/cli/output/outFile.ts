import { closeSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { failure, type Problem, problemsOf, type Result, success } from "../../base/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem, UNKNOWN_REASON } from "../say.js";

const problem = problemsOf(fileCodes);

/** A file during writing; it gets its name only when complete. */
export interface OutFile {
  readonly write: (text: string) => void;
  finish(): void;
  abandon(): void;
}

/** Opens a file; one about people, which only its owner may read, unless it is `forAll`. */
export function openOut(path: string, forAll = false): Result<OutFile> {
  const part = `${path}.part`;
  try {
    // An unfinished file of an earlier run may have other permissions.
    rmSync(part, { force: true });
    const descriptor = openSync(part, "wx", forAll ? 0o666 : 0o600);
    let isOpen = true;
    const close = (): void => {
      if (isOpen) closeSync(descriptor);
      isOpen = false;
    };
    return success({
      write: (text) => void writeSync(descriptor, text),
      finish: () => {
        close();
        renameSync(part, path);
      },
      abandon: () => {
        close();
        rmSync(part, { force: true });
      },
    });
  } catch (error) {
    return failure(unwritable(path, error));
  }
}

/** Writes a whole file; one about people, which only its owner may read, unless it is `forAll`. Returns the problem, if any. */
export function writeOut(path: string, pieces: Iterable<string>, forAll = false): readonly Problem[] {
  const target = openOut(path, forAll);
  if (!target.ok) return target.problems;
  try {
    for (const piece of pieces) target.value.write(piece);
    target.value.finish();
    return [];
  } catch (error) {
    target.value.abandon();
    return [unwritable(path, error)];
  }
}

/** The problem of a file that could not be written. */
export function unwritable(file: string, error: unknown): Problem {
  const code = error instanceof Error && "code" in error ? String(error.code) : UNKNOWN_REASON;
  const message = sayProblem("cli-problem.output-unwritable", { error: code });
  return problem("OUTPUT_UNWRITABLE", message, { file }, sayProblem("cli-problem.output-unwritable-remedy"));
}
