import { lstatSync, realpathSync } from "node:fs";
import { dirname, isAbsolute, relative, resolve, sep } from "node:path";
import { readBytes } from "./inputFile.js";

/** Bytes a file beside a curriculum may have; our choice, several times a full orchestral score in MusicXML. */
const PART_LIMIT = 20_000_000;

/**
 * A reader of files beside a curriculum: the bytes of a regular file in the curriculum's folder or below it, else `undefined`.
 * A path that leads out, also through a symbolic link, leads nowhere.
 */
export function readerBeside(curriculum: string): (path: string) => Uint8Array | undefined {
  return (path) => {
    if (path.includes("\0") || isAbsolute(path)) return undefined;
    try {
      const folder = realpathSync(dirname(resolve(curriculum)));
      const real = realpathSync(resolve(folder, path));
      if (!isWithin(folder, real) || !lstatSync(real).isFile()) return undefined;
      const bytes = readBytes(real, PART_LIMIT);
      return bytes.ok ? bytes.value : undefined;
    } catch {
      return undefined;
    }
  };
}

function isWithin(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== "" && way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}
