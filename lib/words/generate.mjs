/**
 * Writes lib/words/generated from lib/words/catalogues: for each language how it writes numbers and its messages as functions; and, from the English
 * catalogue, which messages there are with which parameters. English is one file a topic and one with all of them; another language is two files, what
 * anybody reads and what only teachers do. `--check` writes nothing and fails when a file is not what it would write.
 */
import { mkdir, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { readCatalogues } from "./generate/catalogues.mjs";
import { compileCatalogues } from "./generate/files.mjs";

const FOLDER = new URL("generated/", import.meta.url);

const catalogues = await readCatalogues();
const files = compileCatalogues(catalogues);
const present = await readdir(FOLDER).catch(() => []);
const stale = present.filter((file) => !files.has(file));
if (process.argv.includes("--check")) await compareWithDisk();
else await write();

async function write() {
  await mkdir(FOLDER, { recursive: true });
  for (const file of stale) await rm(new URL(file, FOLDER));
  for (const [file, text] of files) await writeFile(new URL(file, FOLDER), text);
}

async function compareWithDisk() {
  for (const [file, text] of files) {
    const found = await readFile(new URL(file, FOLDER), "utf8").catch(() => undefined);
    if (found !== text) stale.push(file);
  }
  if (stale.length === 0) return;
  process.stderr.write(`lib/words/generated is not current (${stale.join(", ")}); run: npm run words\n`);
  process.exitCode = 1;
}
