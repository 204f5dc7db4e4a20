/**
 * Writes lib/words/generated from lib/words/catalogues: for each language how it writes numbers, its messages as functions, one file a topic,
 * and the file that is loaded with all of them; and, from the English catalogue, which messages there are with which parameters. `--check` writes
 * nothing and fails when a file is not what it would write.
 */
import { mkdir, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { readCatalogues } from "./generate/catalogues.mjs";
import { compileCatalogues, meaningsFile } from "./generate/files.mjs";

const FOLDER = new URL("generated/", import.meta.url);

/** What codes mean in other languages, for the one command that says it; from the folder of the generated files. */
const MEANINGS = "../../cli/explain/generated/meanings.ts";

const catalogues = await readCatalogues();
const files = compileCatalogues(catalogues);
const present = await readdir(FOLDER).catch(() => []);
const stale = present.filter((file) => !files.has(file));
files.set(MEANINGS, meaningsFile(catalogues));
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
