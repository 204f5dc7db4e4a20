import { readdir, readFile } from "node:fs/promises";
import { brotliDecompressSync } from "node:zlib";
import { failure, problemsOf, type Result, success } from "../../base/index.js";
import type { PageFile } from "../../page/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);
/** Where the build puts the scripts and styles of the page, as one file: an object of names and texts, packed by Brotli (RFC 7932). */
const PARTS = new URL("../../../dist/page.json.br", import.meta.url);
/** Where it puts those of the page of a class. */
const CLASS_PARTS = new URL("../../../dist/class.json.br", import.meta.url);
/** What a browser loads by itself, which is the same for the page and for an application of one's own. */
const BROWSER = new URL("../../../dist/browser/", import.meta.url);

/** Languages but English, one file each. */
const WORDS = new URL("../../../dist/words/", import.meta.url);
/** What only teachers read in them, packed as the parts are: an object of language tags and modules. */
const FURTHER = new URL("../../../dist/further.json.br", import.meta.url);

/** The parts of the page as they were built, with the words of its language. Problem: PAGE_PARTS_MISSING. */
export async function pageParts(language: string, packed: URL = PARTS): Promise<Result<readonly PageFile[]>> {
  const further = language === "en" ? [] : unpacked(FURTHER);
  const [parts, loaded, told = []] = await Promise.all([unpacked(packed), namesIn(BROWSER), further]);
  if (parts === undefined || loaded.length === 0) return partsMissing(packed);
  const beside = await filesAt([
    ...loaded.map((name) => [name, new URL(name, BROWSER)] as const),
    ...wordsOf(language),
  ]);
  const problems = told
    .filter(({ path }) => path === language)
    .map(({ content }) => ({ path: `words/${language}-further.js`, content }));
  return success([...parts, ...beside, ...problems].sort((a, b) => (a.path < b.path ? -1 : 1)));
}

/** The parts of the page of a class, with the words of its language. Problem: PAGE_PARTS_MISSING. */
export async function classParts(language: string, packed: URL = CLASS_PARTS): Promise<Result<readonly PageFile[]>> {
  const parts = await unpacked(packed);
  return parts === undefined ? partsMissing(packed) : success([...parts, ...(await filesAt(wordsOf(language)))]);
}

function wordsOf(language: string): readonly (readonly [path: string, from: URL])[] {
  return language === "en" ? [] : [[`words/${language}.js`, new URL(`${language}.js`, WORDS)]];
}

function partsMissing(packed: URL): Result<never> {
  const said = sayProblem("cli-problem.page-parts-missing");
  const remedy = sayProblem("cli-problem.page-parts-missing-remedy");
  return failure(problem("PAGE_PARTS_MISSING", said, { file: packed.pathname }, remedy));
}

/** The files in a packed file; undefined where it is not there. */
async function unpacked(packed: URL): Promise<readonly PageFile[] | undefined> {
  const bytes = await readFile(packed).catch(() => undefined);
  if (bytes === undefined) return undefined;
  const texts = JSON.parse(brotliDecompressSync(bytes).toString("utf8")) as Record<string, string>;
  return Object.entries(texts).map(([path, text]) => ({ path, content: new TextEncoder().encode(text) }));
}

function filesAt(places: readonly (readonly [path: string, from: URL])[]): Promise<readonly PageFile[]> {
  return Promise.all(places.map(async ([path, from]) => ({ path, content: new Uint8Array(await readFile(from)) })));
}

function namesIn(folder: URL): Promise<readonly string[]> {
  return readdir(folder).catch(() => []);
}
