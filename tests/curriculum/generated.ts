import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { writing } from "../pages/writing.js";
import { ROOT } from "../sources.js";

/** Compares a file that is generated as a whole. */
export function keepFile(path: string, text: string): void {
  const file = join(ROOT, path);
  if (writing) writeFileSync(file, text);
  else expect(readFileSync(file, "utf8")).toBe(text);
}

/** Compares what stands between `<!-- NAME -->` and `<!-- end of NAME -->` on a page. */
export function keepPart(path: string, name: string, text: string): void {
  const page = readFileSync(join(ROOT, path), "utf8");
  const [begin, end] = [`<!-- ${name} -->\n`, `<!-- end of ${name} -->`];
  const from = page.indexOf(begin) + begin.length;
  const to = page.indexOf(end, from);
  expect([page.includes(begin), to > 0], `${begin.trim()} on ${path}`).toEqual([true, true]);
  keepFile(path, `${page.slice(0, from)}\n${text.trim()}\n\n${page.slice(to)}`);
}
