import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";

export const ROOT: string = fileURLToPath(new URL("../", import.meta.url));

export interface SourceFile {
  /** Path from the root, with slashes: `lib/time/meter.ts`. */
  readonly path: string;
  readonly text: string;
}

/** Every TypeScript file we wrote below `folder` (generated ones left out), in order of path. */
export function sourcesIn(folder: string): readonly SourceFile[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts") && !entry.parentPath.endsWith("generated"))
    .map((entry) => relative(ROOT, join(entry.parentPath, entry.name)).replaceAll("\\", "/"))
    .sort()
    .map((path) => ({ path, text: readFileSync(join(ROOT, path), "utf8") }));
}

/** What a file imports or re-exports, as written, dynamic imports included. */
export function importsOf(file: SourceFile): readonly string[] {
  return ts.preProcessFile(file.text, true, true).importedFiles.map((found) => found.fileName);
}
