import { readdir, readFile } from "node:fs/promises";
import { failure, problemsOf, type Result, success } from "../../base/index.js";
import type { PageFile } from "../../page/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);
/** Where the build puts the scripts and styles of the page. */
const PARTS = new URL("../../../dist/page/", import.meta.url);
/** What a browser loads by itself, which is the same for the page and for an application of one's own. */
const BROWSER = new URL("../../../dist/browser/", import.meta.url);

/** Languages but English, one file each. */
const WORDS = new URL("../../../dist/words/", import.meta.url);

/** The parts of the page as they were built, with the words of its language. Problem: PAGE_PARTS_MISSING. */
export async function pageParts(language: string, folder: URL = PARTS): Promise<Result<readonly PageFile[]>> {
  const [names, loaded] = await Promise.all([namesIn(folder), namesIn(BROWSER)]);
  if (
    !["app.js", "page.css", "service-worker.js", "single.js"].every((name) => names.includes(name)) ||
    loaded.length === 0
  ) {
    const said = sayProblem("cli-problem.page-parts-missing");
    const remedy = sayProblem("cli-problem.page-parts-missing-remedy");
    return failure(problem("PAGE_PARTS_MISSING", said, { file: folder.pathname }, remedy));
  }
  const words = language === "en" ? [] : [[`words/${language}.js`, new URL(`${language}.js`, WORDS)] as const];
  const places = [
    ...names.map((name) => [name, new URL(name, folder)] as const),
    ...loaded.map((name) => [name, new URL(name, BROWSER)] as const),
    ...words,
  ];
  const parts = places
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(async ([path, from]) => ({ path, content: new Uint8Array(await readFile(from)) }));
  return success(await Promise.all(parts));
}

function namesIn(folder: URL): Promise<readonly string[]> {
  return readdir(folder).catch(() => []);
}
