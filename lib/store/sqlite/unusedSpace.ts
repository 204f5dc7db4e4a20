import { fstatSync, fsyncSync, openSync, readSync, statSync, writeSync } from "node:fs";

/**
 * The bytes of a SQLite file that nothing uses, by its format (https://sqlite.org/fileformat2.html): between the pointers and the cells of a b-tree page, in its free
 * blocks, and on the pages of the free list. SQLite overwrites what is deleted (`secure_delete`), but copies stay there of cells that were moved to another page
 * before, as pages were split and joined. What they are copies of may be deleted later.
 */
interface Range {
  readonly from: number;
  readonly to: number;
}

/** A page of rows begins with its kind, and one that continues a long row with the number of a page, whose first byte is one of these from so many pages on only. */
const KINDS: ReadonlyMap<number, number> = new Map([
  [2, 12],
  [5, 12],
  [10, 8],
  [13, 8],
]);
const MOST_PAGES = 2 ** 25;
/** The header of the file, which its first page begins with. */
const HEADER = 100;
/** Bytes read at once: our choice. */
const STRETCH = 2 ** 22;

/**
 * Open files, by device and number. None is closed, as the system would end the locks of SQLite, which has the same file open in this process, with it
 * (https://sqlite.org/howtocorrupt.html, 2.2).
 */
const files = new Map<string, number>();

/**
 * Overwrites what no page of a file uses, and nothing else; gives the number of pages that were written, or `undefined`, having written nothing, when the file is of a
 * sort in which that cannot be told. Nobody may write to the file meanwhile, and its write-ahead log must be empty.
 */
export function clearUnusedSpace(path: string): number | undefined {
  const file = fileAt(path);
  const header = Buffer.alloc(HEADER);
  readSync(file, header, 0, HEADER, 0);
  const size = header.readUInt16BE(16) === 1 ? 65_536 : header.readUInt16BE(16);
  const pages = Math.floor(fstatSync(file).size / size);
  // With a page of pointers in between (auto-vacuum) a page does not say what it is.
  if (pages >= MOST_PAGES || header.readUInt32BE(52) !== 0) return undefined;
  const usable = size - header[20]!;
  const free = freePages(file, { size, usable, first: header.readUInt32BE(32) });
  const nothing = Buffer.alloc(size);
  let written = 0;
  const at = Math.max(1, Math.floor(STRETCH / size));
  const bytes = Buffer.alloc(at * size);
  for (let first = 0; first < pages; first += at) {
    const count = Math.min(at, pages - first);
    readSync(file, bytes, 0, count * size, first * size);
    for (let i = 0; i < count; i++) {
      const page = bytes.subarray(i * size, (i + 1) * size);
      const number = first + i + 1;
      const unused = free.get(number) ?? unusedIn(page, { start: number === 1 ? HEADER : 0, usable });
      const dirty = unused.filter(({ from, to }) => nothing.compare(page, from, to, 0, to - from) !== 0);
      for (const { from, to } of dirty) writeSync(file, nothing, 0, to - from, (number - 1) * size + from);
      if (dirty.length > 0) written++;
    }
  }
  if (written > 0) fsyncSync(file);
  return written;
}

/** What a page of rows does not use; nothing of any other page, and of one whose numbers do not fit, which is damaged. */
function unusedIn(
  page: Buffer,
  { start, usable }: { readonly start: number; readonly usable: number },
): readonly Range[] {
  const head = KINDS.get(page[start]!);
  if (head === undefined) return [];
  const from = start + head + 2 * page.readUInt16BE(start + 3);
  const to = page.readUInt16BE(start + 5) || 65_536;
  if (from > to || to > usable) return [];
  const ranges: Range[] = [{ from, to }];
  for (let block = page.readUInt16BE(start + 1), last = to - 1; block !== 0; ) {
    const end = block <= usable - 4 ? block + page.readUInt16BE(block + 2) : usable + 1;
    if (block <= last || end > usable) return [];
    ranges.push({ from: block + 4, to: end });
    last = end;
    block = page.readUInt16BE(block);
  }
  return ranges;
}

/** The pages of the free list: trunks, of which what follows their list is unused, and those listed, of which everything is. */
function freePages(
  file: number,
  { size, usable, first }: { readonly size: number; readonly usable: number; readonly first: number },
): ReadonlyMap<number, readonly Range[]> {
  const found = new Map<number, readonly Range[]>();
  const trunk = Buffer.alloc(size);
  for (let number = first; number !== 0 && !found.has(number); number = trunk.readUInt32BE(0)) {
    readSync(file, trunk, 0, size, (number - 1) * size);
    const count = Math.min(trunk.readUInt32BE(4), Math.floor(usable / 4) - 2);
    found.set(number, [{ from: 8 + 4 * count, to: usable }]);
    for (let i = 0; i < count; i++) found.set(trunk.readUInt32BE(8 + 4 * i), [{ from: 0, to: size }]);
  }
  return found;
}

function fileAt(path: string): number {
  const { dev, ino } = statSync(path, { bigint: true });
  const name = `${dev} ${ino}`;
  const file = files.get(name) ?? openSync(path, "r+");
  files.set(name, file);
  return file;
}
