import { readdir, readFile } from "node:fs/promises";
import { brotliDecompressSync } from "node:zlib";
import { failure, problemsOf, type Result, success } from "../../base/index.js";
import type { PageFile } from "../../page/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);
/** Scripts of a page are in the package packed by Brotli (RFC 7932). */
const PACKED = ".br";
/** Where the build puts the scripts and styles of the page. */
const PARTS = new URL("../../../dist/page/", import.meta.url);
/** Where it puts those of the page of a class. */
const CLASS_PARTS = new URL("../../../dist/class/", import.meta.url);
/** What a browser loads by itself, which is the same for the page and for an application of one's own. */
const BROWSER = new URL("../../../dist/browser/", import.meta.url);

/** Languages but English, one file each. */
const WORDS = new URL("../../../dist/words/", import.meta.url);

/** The parts of the page as they were built, with the words of its language. Problem: PAGE_PARTS_MISSING. */
export async function pageParts(language: string, folder: URL = PARTS): Promise<Result<readonly PageFile[]>> {
  const [names, loaded] = await Promise.all([namesIn(folder), namesIn(BROWSER)]);
  if (
    !["app.js.br", "page.css", "service-worker.js.br", "single.js.br"].every((name) => names.includes(name)) ||
    loaded.length === 0
  )
    return partsMissing(folder);
  const places = [
    ...names.map((name) => [name, new URL(name, folder)] as const),
    ...loaded.map((name) => [name, new URL(name, BROWSER)] as const),
    ...wordsOf(language),
  ];
  return success(await filesAt(places.sort(([a], [b]) => (a < b ? -1 : 1))));
}

/** The parts of the page of a class, with the words of its language. Problem: PAGE_PARTS_MISSING. */
export async function classParts(language: string, folder: URL = CLASS_PARTS): Promise<Result<readonly PageFile[]>> {
  const names = await namesIn(folder);
  if (!names.includes("class.js.br")) return partsMissing(folder);
  return success(await filesAt([...names.map((name) => [name, new URL(name, folder)] as const), ...wordsOf(language)]));
}

function wordsOf(language: string): readonly (readonly [path: string, from: URL])[] {
  return language === "en" ? [] : [[`words/${language}.js`, new URL(`${language}.js`, WORDS)]];
}

function partsMissing(folder: URL): Result<never> {
  const said = sayProblem("cli-problem.page-parts-missing");
  const remedy = sayProblem("cli-problem.page-parts-missing-remedy");
  return failure(problem("PAGE_PARTS_MISSING", said, { file: folder.pathname }, remedy));
}

function filesAt(places: readonly (readonly [path: string, from: URL])[]): Promise<readonly PageFile[]> {
  return Promise.all(
    places.map(async ([path, from]) => {
      const bytes = await readFile(from);
      return path.endsWith(PACKED)
        ? { path: path.slice(0, -PACKED.length), content: new Uint8Array(brotliDecompressSync(bytes)) }
        : { path, content: new Uint8Array(bytes) };
    }),
  );
}

function namesIn(folder: URL): Promise<readonly string[]> {
  return readdir(folder).catch(() => []);
}
