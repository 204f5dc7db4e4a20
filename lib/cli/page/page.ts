import { join } from "node:path";
import { failure, type Problem, problemsOf, type Result, success } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { makeFolder, serveFiles, writeWhole } from "../../node/index.js";
import { contentFiles, folderFiles, type PageCourse, type PageFile, singlePage } from "../../page/index.js";
import type { Words } from "../../words/index.js";
import { fileCodes } from "../codes.js";
import type { Act, AddCommand } from "../command.js";
import { openCourse } from "../input/courseFile.js";
import { wholeNumber } from "../options/optionValues.js";
import { DONE, misuse, type Outcome, PROBLEMS, printJson, refuse, type Setting, tellProblems } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { openEngraver, sheetFonts } from "../render/sheets.js";
import { sayProblem } from "../say.js";
import { coursesWithRiffs } from "./courseRiffs.js";
import { pageParts } from "./pageParts.js";
import { untilInterrupted } from "./untilInterrupted.js";

const problem = problemsOf(fileCodes);

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
  const courses = openCourses(setting, files);
  if (!courses.ok) return refuse(setting, courses.problems);
  const parts = await pageParts();
  if (!parts.ok) return refuse(setting, parts.problems);
  const engraved = coursesWithRiffs(courses.value, {
    engraver: await openEngraver(),
    fonts: sheetFonts(),
    words: setting.words,
  });
  tellProblems(setting, [...courses.advice, ...engraved.problems]);
  const made = filesOf(engraved.courses, {
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

function openCourses(setting: Setting, files: readonly string[]): Result<readonly Curriculum[]> {
  const courses: Curriculum[] = [];
  const problems: Problem[] = [];
  const advice: Problem[] = [];
  for (const file of files) {
    const course = openCourse(file, setting.sources);
    if (!course.ok) problems.push(...course.problems);
    else if (courses.some(({ name }) => name === course.value.name)) {
      const said = sayProblem("cli-problem.page-course-twice", { course: course.value.name });
      problems.push(problem("PAGE_COURSE_TWICE", said, { file }, sayProblem("cli-problem.page-course-twice-remedy")));
    } else courses.push(course.value);
    if (course.ok) advice.push(...course.advice);
  }
  return problems.length > 0 ? failure(...problems) : success(courses, advice);
}

interface Making {
  readonly parts: readonly PageFile[];
  readonly words: Words;
  readonly isSingle: boolean;
}

function filesOf(courses: readonly PageCourse[], { parts, words, isSingle }: Making): readonly PageFile[] {
  const content = contentFiles(courses, words.language);
  const title = courses.length === 1 ? courses[0]!.course.title : words.say("page.name");
  const said = { language: words.language, title, noScript: words.say("page.needs-script") };
  if (!isSingle) return folderFiles({ content, parts, words: said });
  const textOf = (name: string): string => {
    const part = parts.find(({ path }) => path === name)!.content;
    return typeof part === "string" ? part : new TextDecoder().decode(part);
  };
  const html = singlePage({ content, script: textOf("single.js"), style: textOf("page.css"), words: said });
  return [{ path: "index.html", content: html }];
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
    setting.terminal.tell(`leeway page: ${error instanceof Error ? error.message : error}\n`);
    return PROBLEMS;
  }
}

function bytesOf(content: PageFile["content"]): Uint8Array {
  return typeof content === "string" ? new TextEncoder().encode(content) : content;
}
