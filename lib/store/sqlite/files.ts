import { chmodSync, existsSync, readdirSync, rmSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import type { Worded } from "../../base/index.js";
import { storeProblem } from "../codes.js";
import { storeFailure } from "../failure.js";
import { say, sayProblem } from "../say.js";
import { keyText } from "../sql/keyText.js";
import { type Connection, rowsOf, valuesOf } from "./model.js";

/** Suffix of the name of a copy made before a migration; the version follows. */
const COPY = ".before-version-";

/** Makes a copy of the file in its folder. An existing copy is kept, and the new one gets a number. */
export function backUpFile(connection: Connection, path: string, version: number): void {
  const first = `${path}${COPY}${version + 1}`;
  let copy = first;
  for (let n = 2; existsSync(copy); n++) copy = `${first}.${n}`;
  connection.prepare("vacuum into ?").run([copy]);
  if (process.platform !== "win32") chmodSync(copy, 0o600);
}

/**
 * Removes what deleted rows left: copies made before changes of the tables are cleared of the student, samples of keys are deleted, the
 * write-ahead log is emptied, and the file is written anew without free pages.
 *
 * Throws STORE_BUSY while another program is reading: what it reads has to stay until it is done.
 */
export function removeTracesOf(connection: Connection, path: string, student: string): readonly Worded[] {
  for (const copy of copiesOf(path)) clearCopy(connection, copy, student);
  clearSamples(connection, "main");
  emptyLog(connection, path);
  connection.exec("vacuum");
  emptyLog(connection, path);
  return [say("store.file-copies"), say("store.freed-blocks")];
}

function copiesOf(path: string): readonly string[] {
  return readdirSync(dirname(path))
    .filter((name) => name.startsWith(`${basename(path)}${COPY}`) && !/-(?:wal|shm|journal)$/.test(name))
    .map((name) => join(dirname(path), name));
}

/** Deletes the rows of a student from every table of a copy that has a student column, because a copy has older tables. */
function clearCopy(connection: Connection, copy: string, student: string): void {
  connection.prepare("attach ? as copy").run([copy]);
  try {
    connection.prepare("pragma copy.secure_delete = on").all([]);
    const tables = valuesOf(
      connection,
      "select m.name from copy.sqlite_master m join pragma_table_info(m.name, 'copy') c on c.name = 'student' where m.type = 'table'",
    );
    // While foreign keys are not enforced, the order of the deletions does not matter.
    connection.exec("pragma foreign_keys = off");
    for (const table of tables)
      connection.prepare(`delete from copy."${table}" where student = ?`).run([keyText(student)]);
    clearSamples(connection, "copy");
    connection.exec("vacuum copy");
  } finally {
    connection.exec("pragma foreign_keys = on");
    connection.exec("detach copy");
    for (const end of ["-wal", "-shm", "-journal"]) rmSync(copy + end, { force: true });
  }
}

/**
 * Removes the samples of keys that SQLite takes where somebody has the file analysed: names are among them. We never have it analysed, as
 * every statement finds its rows by a key (https://sqlite.org/fileformat2.html#stat4tab; programs may delete from these tables).
 */
function clearSamples(connection: Connection, of: "main" | "copy"): void {
  const tables = valuesOf(
    connection,
    `select name from ${of}.sqlite_master where name in ('sqlite_stat3', 'sqlite_stat4')`,
  );
  for (const table of tables) connection.exec(`delete from ${of}.${table}`);
}

function emptyLog(connection: Connection, path: string): void {
  const [result] = rowsOf<{ readonly busy: number }>(connection, "pragma wal_checkpoint(truncate)");
  if (result?.busy === 0) return;
  const message = sayProblem("store-problem.traces-in-log", { place: path });
  throw storeFailure(storeProblem("STORE_BUSY", message, {}, sayProblem("store-problem.traces-in-log-remedy")));
}
