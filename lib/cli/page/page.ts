import { join } from "node:path";
import { type Result, success } from "../../base/index.js";
import { makeFolder, serveFiles, writeWhole } from "../../node/index.js";
import type { PageFile } from "../../page/index.js";
import type { Act, AddCommand } from "../command.js";
import { wholeNumber } from "../options/optionValues.js";
import { DONE, misuse, type Outcome, printJson, refuse, type Setting, tellProblems } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { openEngraver, sheetFonts } from "../render/sheets.js";
import { withRecordings } from "./courseRecordings.js";
import { coursesWithRiffs } from "./courseRiffs.js";
import { fileOfCourse, openCourses } from "./openCourses.js";
import { bytesOf, pageFiles } from "./pageFiles.js";
import { pageParts } from "./pageParts.js";
import { portProblem } from "./portProblem.js";
import { untilInterrupted } from "./untilInterrupted.js";

export interface PageOptions {
  readonly out?: string;
  readonly single?: true;
  readonly open?: true;
  readonly port?: number;
}

/** Adds `page` to the program. */
export function pageCommand(command: AddCommand, act: Act): void {
  command("page", "the practice page: hear a drill, play it, be told, go on")
    .argument("[COURSE...]", "none: a page on which teachers write courses")
    .option("--out <DIR>", "the folder to write, which any web host serves; with --single the file")
    .option("--single", "one HTML file to hand out, which works by a double click")
    .option("--open", "serve the page to this machine until interrupted")
    .option("--port <NUMBER>", "the port to serve at; any that is free when left out", wholeNumber(1, 65_535))
    .action((files: readonly string[], options: PageOptions) => act((setting) => page(setting, files, options)));
}

/** `leeway page COURSE...`: the page as a folder or as one file, written, served, or both. */
async function page(setting: Setting, files: readonly string[], options: PageOptions): Promise<Outcome> {
  if (options.out === undefined && options.open === undefined) {
    return misuse(setting, setting.words.say("cli.misuse.page-where", { out: "--out", open: "--open" }));
  }
  const opened = openCourses(setting, files);
  if (!opened.ok) return refuse(setting, opened.problems);
  const parts = await pageParts(setting.words.language);
  if (!parts.ok) return refuse(setting, parts.problems);
  const engraved = await coursesWithRiffs(
    opened.value.map(({ course }) => course),
    { engraver: await openEngraver(), fonts: sheetFonts(), words: setting.words },
  );
  const courses = await withRecordings(engraved.courses, { fileOf: fileOfCourse(opened.value) });
  if (!courses.ok) return refuse(setting, courses.problems);
  tellProblems(setting, [...opened.advice, ...engraved.problems, ...courses.advice]);
  const made = pageFiles(courses.value, {
    parts: parts.value,
    words: setting.words,
    isSingle: options.single === true,
  });
  if (options.out !== undefined) {
    const written = await write(made, options.out, options.single === true);
    if (!written.ok) return refuse(setting, written.problems);
    const bytes = made.reduce((sum, { content }) => sum + bytesOf(content).length, 0);
    if (setting.json) printJson(setting, { out: options.out, files: made.map(({ path }) => path), bytes });
    else {
      const said = { out: options.out, count: made.length, kilobytes: (bytes / 1000).toFixed(0) };
      setting.terminal.print(`${plain(setting.words.say("cli.page-made", said))}\n`);
    }
  }
  return options.open === true ? serve(setting, made, options.port) : DONE;
}

async function write(files: readonly PageFile[], out: string, isSingle: boolean): Promise<Result<void>> {
  for (const { path, content } of files) {
    const target = isSingle ? out : join(out, path);
    const folder = await makeFolder(join(target, ".."));
    if (!folder.ok) return folder;
    const written = await writeWhole(target, bytesOf(content));
    if (!written.ok) return written;
  }
  return success(undefined);
}

async function serve(setting: Setting, files: readonly PageFile[], port: number | undefined): Promise<Outcome> {
  const bytes = new Map(files.map(({ path, content }) => [path, bytesOf(content)]));
  try {
    const serving = await serveFiles(bytes, port === undefined ? {} : { port });
    setting.terminal.print(`${setting.words.say("cli.page-at", { address: serving.address })}\n`);
    await untilInterrupted();
    await serving.close();
    return DONE;
  } catch (error) {
    const problem = portProblem(error);
    if (problem === undefined) throw error;
    return refuse(setting, [problem]);
  }
}
