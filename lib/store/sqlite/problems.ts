import type { Problem } from "../../base/index.js";
import { type StoreCode, storeProblem } from "../codes.js";
import { sayProblem } from "../say.js";

/** The problem for an error of SQLite (https://sqlite.org/rescode.html) or of the file system, for the store at this path. */
export function sqliteProblem(path: string, error: unknown): Problem<StoreCode> {
  const code = codeOf(error);
  const said = error instanceof Error ? error.message : String(error);
  const [kind, problem] = kindOf(code);
  const coded = code === "" ? "bare" : "coded";
  if (problem === undefined)
    return storeProblem(kind, sayProblem("store-problem.store-failed", { place: path, said, coded, error: code }));
  const message = sayProblem(`store-problem.${problem}`, { place: path, error: code, said });
  const remedy = problem === "store-no-database" ? "store-foreign" : problem;
  return storeProblem(kind, message, {}, sayProblem(`store-problem.${remedy}-remedy`));
}

function kindOf(code: string): readonly [StoreCode, Known?] {
  if (code.startsWith("SQLITE_FULL") || code === "SQLITE_IOERR_WRITE" || code === "ENOSPC" || code === "EFBIG")
    return ["STORE_FULL", "store-full"];
  if (code.startsWith("SQLITE_READONLY") || code === "EROFS") return ["STORE_READ_ONLY", "store-read-only"];
  if (code.startsWith("SQLITE_BUSY") || code.startsWith("SQLITE_LOCKED")) return ["STORE_BUSY", "store-busy"];
  if (code.startsWith("SQLITE_NOTADB")) return ["STORE_FOREIGN", "store-no-database"];
  if (code.startsWith("SQLITE_CORRUPT")) return ["STORE_DAMAGED", "store-damaged"];
  if (code.startsWith("SQLITE_CANTOPEN") || code.startsWith("SQLITE_PERM") || code === "EACCES" || code === "EPERM")
    return ["STORE_PLACE_UNUSABLE", "store-place-unusable"];
  return ["STORE_FAILED"];
}

type Known =
  | "store-busy"
  | "store-damaged"
  | "store-full"
  | "store-no-database"
  | "store-place-unusable"
  | "store-read-only";

/** Whether a retry may succeed, when another writer has finished. */
export function isTransient(error: unknown): boolean {
  return /^SQLITE_(?:BUSY|LOCKED)/.test(codeOf(error));
}

function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : "";
}
