import { type FileHandle, mkdir, open, readdir, readFile, rename, rm, stat, writeFile } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { failure, success } from "../base/index.js";
import { codeOf, writeProblem } from "./fileProblem.js";
import type { Result } from "./problem.js";

/** Unfinished files are called `.NAME.THREAD-COUNT.PROCESS.unfinished`, beside the place of the finished one. */
const UNFINISHED = /^\..+\.(\d+)\.unfinished$/s;
/** The letters of a name kept for its unfinished file, so that that is not too long where the name itself is not. */
const KEPT = 40;

let counter = 0;

/**
 * Writes a file so that its name never leads to less than all of it: to an unfinished file beside it, flushed to the disk, then renamed. Bytes may come
 * piece by piece.
 *
 * Problems: OUTPUT_DISK_FULL, OUTPUT_NOT_ALLOWED, OUTPUT_FOLDER_MISSING, OUTPUT_NAME_TAKEN, OUTPUT_NOT_WRITTEN; nothing is left of the
 * file then, and what had its name before is still there.
 *
 * @example
 * (await writeWhole("out/take.json", new TextEncoder().encode("{}"))).ok // true
 */
export async function writeWhole(path: string, bytes: Uint8Array | AsyncIterable<Uint8Array>): Promise<Result<void>> {
  const folder = dirname(path);
  counter += 1;
  // Loaded where a file is written: a command that writes none starts without it.
  const { threadId } = process.getBuiltinModule("node:worker_threads");
  const unfinished = join(
    folder,
    `.${[...basename(path)].slice(0, KEPT).join("")}.${threadId}-${counter}.${process.pid}.unfinished`,
  );
  try {
    await writeAll(unfinished, bytes);
    await rename(unfinished, path);
    await flushFolder(folder);
    return success(undefined);
  } catch (error) {
    await rm(unfinished, { force: true }).catch(() => undefined);
    return failure(writeProblem(path, error));
  }
}

/**
 * Writes a file as `writeWhole` does, unless it holds these bytes already: then it is not touched. Whether it was written. Problems as `writeWhole`.
 *
 * @example
 * (await writeIfOther("out/take.json", new TextEncoder().encode("{}"))).ok // true
 */
export async function writeIfOther(path: string, bytes: Uint8Array): Promise<Result<boolean>> {
  const found = await readFile(path).catch(() => undefined);
  if (found?.equals(bytes) === true) return success(false);
  const written = await writeWhole(path, bytes);
  return written.ok ? success(true) : written;
}

/**
 * Makes a folder and those above it; one that is there already is fine. Problems as `writeWhole`.
 *
 * @example
 * (await makeFolder("out")).ok // true
 */
export async function makeFolder(path: string): Promise<Result<void>> {
  try {
    await makeWithParents(path);
    return success(undefined);
  } catch (error) {
    return failure(writeProblem(path, error));
  }
}

/** Step by step: Node 20's own `recursive` never returns where a parent is there and refuses with ENOENT, as /proc does. */
async function makeWithParents(path: string): Promise<void> {
  try {
    await mkdir(path);
  } catch (error) {
    const code = codeOf(error);
    if (code === "ENOENT" && !(await isFolder(dirname(path))) && dirname(path) !== path) {
      await makeWithParents(dirname(path));
      await mkdir(path).catch(async (again: unknown) => {
        if (!(await isFolder(path))) throw again;
      });
    } else if (!(await isFolder(path))) throw error;
  }
}

async function isFolder(path: string): Promise<boolean> {
  return (await stat(path).catch(() => undefined))?.isDirectory() === true;
}

/**
 * Removes what processes that are no more, and this one, left unfinished in a folder. Nothing may be written to it meanwhile.
 *
 * @example
 * await removeUnfinished("out");
 */
export async function removeUnfinished(folder: string): Promise<void> {
  const names = await readdir(folder).catch(() => []);
  for (const name of names) {
    const left = UNFINISHED.exec(name);
    if (left !== null && !isRunningElsewhere(Number(left[1])))
      await rm(join(folder, name), { force: true }).catch(() => undefined);
  }
}

async function writeAll(path: string, bytes: Uint8Array | AsyncIterable<Uint8Array>): Promise<void> {
  const file = await open(path, "wx");
  try {
    await writeFile(file, bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** A renamed file is safe once its folder is on the disk too. Systems that cannot flush a folder (Windows) are left to themselves. */
async function flushFolder(folder: string): Promise<void> {
  let handle: FileHandle | undefined;
  try {
    handle = await open(folder, "r");
    await handle.sync();
  } catch {
    // The file itself is written and flushed.
  } finally {
    await handle?.close();
  }
}

function isRunningElsewhere(id: number): boolean {
  if (id === process.pid) return false;
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return codeOf(error) === "EPERM";
  }
}
