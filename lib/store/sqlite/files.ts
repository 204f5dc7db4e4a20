import { chmodSync, existsSync, readdirSync, rmSync, statSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import type { Worded } from "../../base/index.js";
import { storeProblem } from "../codes.js";
import { storeFailure } from "../failure.js";
import { say, sayProblem } from "../say.js";
import { keyText } from "../sql/keyText.js";
import { type Connection, rowsOf, valuesOf } from "./model.js";
import { clearUnusedSpace } from "./unusedSpace.js";

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
 * Removes what deleted rows left: copies made before changes of the tables are cleared of the student, samples of keys are deleted, the write-ahead log is emptied,
 * and what no page uses is overwritten. The rest of the file stays as it is.
 *
 * Throws STORE_BUSY while another program is reading: what it reads has to stay until it is done.
 */
export function removeTracesOf(connection: Connection, path: string, student: string): readonly Worded[] {
  for (const copy of copiesOf(path)) clearCopy(connection, copy, student);
  clearSamples(connection, "main");
  beginOnFile(connection, path);
  try {
    if (clearUnusedSpace(path) === undefined) {
      connection.exec("commit");
      connection.exec("vacuum");
    } else {
      // Pages that are in memory still have what was there: they are let go of, here now, and in other programs as soon as they see that something was written.
      connection.exec("pragma shrink_memory");
      connection.exec("update leeway_store set value = value");
      connection.exec("commit");
    }
  } catch (error) {
    connection.exec("rollback");
    throw error;
  }
  connection.exec("pragma shrink_memory");
  emptyLog(connection, path);
  return [say("store.file-copies"), say("store.freed-blocks")];
}

/** Times that the log is emptied anew, as somebody may write between that and our turn: our choice. */
const TURNS = 50;

/** Begins a transaction in which nobody else writes and all that was written is in the file, not in the log. */
function beginOnFile(connection: Connection, path: string): void {
  for (let turn = 1; ; turn++) {
    emptyLog(connection, path);
    connection.exec("begin immediate");
    if ((statSync(`${path}-wal`, { throwIfNoEntry: false })?.size ?? 0) === 0) return;
    connection.exec("rollback");
    if (turn === TURNS) throw inLog(path);
  }
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
    if (clearUnusedSpace(copy) === undefined) connection.exec("vacuum copy");
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
  if (result?.busy !== 0) throw inLog(path);
}

function inLog(path: string): Error {
  const message = sayProblem("store-problem.traces-in-log", { place: path });
  return storeFailure(storeProblem("STORE_BUSY", message, {}, sayProblem("store-problem.traces-in-log-remedy")));
}
