import { unzipSync, Zip, ZipDeflate, ZipPassThrough } from "fflate";

/** A file to be put into a ZIP file. */
export interface ZipEntry {
  /** Path in the ZIP file, with slashes. */
  readonly name: string;
  /** Whether its content is compressed already, so that it is put in as it is. */
  readonly isCompressed: boolean;
  readonly read: () => Promise<Uint8Array>;
}

/** Most bytes of a ZIP file without its extension to 64 bits (PKWARE APPNOTE 6.3.10, section 4.4: fields of 32 bits). */
export const MOST_ZIPPED: number = 2 ** 32 - 1;
/** The first day that ZIP files know (MS-DOS), on every file: the same files make the same bytes. By the clock of the machine, as the format has it. */
const DATED = new Date(1980, 0, 1);

/**
 * A ZIP file of these files, in their order, piece by piece: one file at a time is in memory. The same files give the same bytes.
 *
 * @example
 * for await (const piece of zipped([{ name: "a.txt", isCompressed: false, read: async () => new Uint8Array(3) }])) piece.length;
 */
export async function* zipped(entries: readonly ZipEntry[]): AsyncGenerator<Uint8Array> {
  let pieces: Uint8Array[] = [];
  const zip = new Zip((error, piece) => {
    if (error) throw error;
    pieces.push(piece);
  });
  for (const { name, isCompressed, read } of entries) {
    const entry = isCompressed ? new ZipPassThrough(name) : new ZipDeflate(name, { level: 9 });
    entry.mtime = DATED;
    zip.add(entry);
    entry.push(await read(), true);
    yield* pieces;
    pieces = [];
  }
  zip.end();
  yield* pieces;
}

/**
 * Files of a ZIP file by their names: those that are wanted, each whole, or `undefined` where the bytes are no ZIP file that can be read. Nothing is taken from a name: whoever writes files looks at them first.
 * No more memory is used than the ZIP file says of the wanted files, which `most` bounds, in bytes: beyond that `undefined` too.
 *
 * @example
 * unzipped(new Uint8Array(3), { names: new Set(["a.txt"]), most: 1000 }) // undefined: no ZIP file
 */
export function unzipped(
  bytes: Uint8Array,
  { names, most }: { readonly names: ReadonlySet<string>; readonly most: number },
): ReadonlyMap<string, Uint8Array> | undefined {
  let size = 0;
  try {
    const found = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        if (!names.has(name)) return false;
        size += originalSize;
        if (size > most) throw new RangeError("larger than allowed");
        return true;
      },
    });
    return new Map(Object.entries(found));
  } catch {
    return undefined;
  }
}
