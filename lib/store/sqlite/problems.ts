import type { Problem } from "../../base/index.js";
import { type StoreCode, storeProblem } from "../codes.js";

/** The problem for an error of SQLite (https://sqlite.org/rescode.html) or of the file system, for the store at this path. */
export function sqliteProblem(path: string, error: unknown): Problem<StoreCode> {
  const code = codeOf(error);
  const says = error instanceof Error ? error.message : String(error);
  const at = `the store ${path}`;
  if (code.startsWith("SQLITE_FULL") || code === "SQLITE_IOERR_WRITE" || code === "ENOSPC" || code === "EFBIG")
    return storeProblem(
      "STORE_FULL",
      `${at} cannot be written: no room is left, or a limit on the size of files is met (${code})`,
      {},
      "make room and try again: nothing was half written",
    );
  if (code.startsWith("SQLITE_READONLY") || code === "EROFS")
    return storeProblem(
      "STORE_READ_ONLY",
      `${at} may not be written (${code})`,
      {},
      "make the file and its folder writable for this user, or copy the file",
    );
  if (code.startsWith("SQLITE_BUSY") || code.startsWith("SQLITE_LOCKED"))
    return storeProblem(
      "STORE_BUSY",
      `another program has been using ${path} for too long`,
      {},
      "wait for it or close it, then try again",
    );
  if (code.startsWith("SQLITE_NOTADB"))
    return storeProblem("STORE_FOREIGN", `${path} is not a database`, {}, "name another file for the store");
  if (code.startsWith("SQLITE_CORRUPT"))
    return storeProblem(
      "STORE_DAMAGED",
      `${at} is damaged (${says})`,
      {},
      "restore a backup, or export what can be read and import it into a new store",
    );
  if (code.startsWith("SQLITE_CANTOPEN") || code.startsWith("SQLITE_PERM") || code === "EACCES" || code === "EPERM")
    return storeProblem(
      "STORE_PLACE_UNUSABLE",
      `${at} cannot be opened (${code})`,
      {},
      "check the folder and its permissions",
    );
  return storeProblem("STORE_FAILED", `${at}: ${says}${code === "" ? "" : ` (${code})`}`);
}

/** Whether a retry may succeed, when another writer has finished. */
export function isTransient(error: unknown): boolean {
  return /^SQLITE_(?:BUSY|LOCKED)/.test(codeOf(error));
}

function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : "";
}
