import { readdir, readFile } from "node:fs/promises";
import { failure, problemsOf, type Result, success } from "../../base/index.js";
import type { PageFile } from "../../page/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);
/** Where the build puts the scripts and styles of the page. */
const PARTS = new URL("../../../dist/page/", import.meta.url);

/** The parts of the page as they were built. Problem: PAGE_PARTS_MISSING. */
export async function pageParts(folder: URL = PARTS): Promise<Result<readonly PageFile[]>> {
  const names = await readdir(folder).catch((): string[] => []);
  if (!["app.js", "page.css", "service-worker.js", "single.js"].every((name) => names.includes(name))) {
    const said = sayProblem("cli-problem.page-parts-missing");
    const remedy = sayProblem("cli-problem.page-parts-missing-remedy");
    return failure(problem("PAGE_PARTS_MISSING", said, { file: folder.pathname }, remedy));
  }
  const parts = names
    .sort()
    .map(async (path) => ({ path, content: new Uint8Array(await readFile(new URL(path, folder))) }));
  return success(await Promise.all(parts));
}
