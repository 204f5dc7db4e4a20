import { existsSync, readFileSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { failure, type Problem, problemsOf, type Result, success } from "../../base/index.js";
import { makeFolder, sha256, unzipped, writeIfOther, writeWhole, type ZipEntry, zipped } from "../../node/index.js";
import { fileCodes } from "../codes.js";
import type { Act, AddCommand } from "../command.js";
import { fileBeside, openCourse, readCourseText } from "../input/courseFile.js";
import { readBytes, tooLarge } from "../input/inputFile.js";
import { DONE, type Outcome, printJson, refuse, type Setting, tellProblems } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { sayProblem } from "../say.js";
import { COMPRESSED } from "./zips.js";

const problem = problemsOf(fileCodes);

/** Most bytes of a packed course, packed and unpacked: our choice, ten hours of compressed sound; it is held in memory. */
const MOST = 1_000_000_000;
/** The list of what is packed, in the form that the programs sha256sum and shasum read; the course stands first. */
const SUMS = "SHA256SUMS";
const LINE = /^([0-9a-f]{64}) [ *](.+)$/;

/** Adds `pack` to the program. */
export function packCommand(command: AddCommand, act: Act): void {
  command("pack", "a course with its recordings and other files, as one file to move")
    .argument("<COURSE>")
    .requiredOption("--out <FILE>", "the ZIP file to write")
    .action((file: string, options: { out: string }) => act((setting) => pack(setting, file, options.out)));
}

/** Adds `unpack` to the program. */
export function unpackCommand(command: AddCommand, act: Act): void {
  command("unpack", "a packed course as a folder again, each file checked")
    .argument("<FILE>")
    .requiredOption("--out <DIR>", "the folder; no file in it is replaced by another")
    .action((file: string, options: { out: string }) => act((setting) => unpack(setting, file, options.out)));
}

async function pack(setting: Setting, file: string, out: string): Promise<Outcome> {
  const course = readCourseText(file, setting.sources);
  if (!course.ok) return refuse(setting, course.problems);
  const own = basename(file);
  const paths = [
    [own, file] as const,
    ...Object.keys(course.value.text.files).map((name) => [name, fileBeside(file, name) ?? name] as const),
  ];
  const size = paths.reduce((sum, [, path]) => sum + statSync(path).size, 0);
  if (size > MOST) return refuse(setting, [tooLarge(file, MOST)]);
  const sums: string[] = [];
  const entries = paths.map(([name, path]): ZipEntry => {
    const read = async (): Promise<Uint8Array> => {
      const bytes = readFileSync(path);
      sums.push(`${sha256(bytes)}  ${name}\n`);
      return bytes;
    };
    return { name, isCompressed: COMPRESSED.test(name), read };
  });
  const list = { name: SUMS, isCompressed: false, read: async () => new TextEncoder().encode(sums.join("")) };
  const written = await writeWhole(out, zipped([...entries, list]));
  if (!written.ok) return refuse(setting, written.problems);
  tellProblems(setting, course.advice);
  return told(setting, { out, files: paths.map(([name]) => name) }, "cli.packed");
}

async function unpack(setting: Setting, file: string, out: string): Promise<Outcome> {
  const bytes = readBytes(file, MOST);
  if (!bytes.ok) return refuse(setting, bytes.problems);
  const packed = packedFiles(bytes.value, file);
  if (!packed.ok) return refuse(setting, packed.problems);
  const taken = [...packed.value].filter(([name, content]) => isOther(join(out, name), content));
  if (taken.length > 0)
    return refuse(
      setting,
      taken.map(([name]) => folderTaken(join(out, name))),
    );
  for (const [name, content] of packed.value) {
    const target = join(out, name);
    const made = await makeFolder(join(target, ".."));
    const written = made.ok ? await writeIfOther(target, content) : made;
    if (!written.ok) return refuse(setting, written.problems);
  }
  const files = [...packed.value.keys()];
  const course = openCourse(join(out, files[0]!), setting.sources);
  if (!course.ok) return refuse(setting, course.problems);
  tellProblems(setting, course.advice);
  return told(setting, { out, files, course: join(out, files[0]!) }, "cli.unpacked");
}

function told(
  setting: Setting,
  answer: { readonly out: string; readonly files: readonly string[]; readonly course?: string },
  message: "cli.packed" | "cli.unpacked",
): Outcome {
  if (setting.json) printJson(setting, answer);
  else {
    const many = answer.files.length === 1 ? ("one" as const) : ("more" as const);
    const files = setting.words.say("cli.files", { shown: String(answer.files.length), many });
    const said = setting.words.say(message, { files, out: answer.out, course: answer.course ?? answer.files[0]! });
    setting.terminal.print(`${plain(said)}\n`);
  }
  return DONE;
}

/** What a packed course holds, each file as it was packed, the course first. Problems: PACK_UNREADABLE, PACK_PATH_LEAVES, PACK_FILE_CHANGED. */
function packedFiles(bytes: Uint8Array, file: string): Result<ReadonlyMap<string, Uint8Array>> {
  const unreadable = (): Result<never> => {
    const remedy = sayProblem("cli-problem.pack-unreadable-remedy", { command: "leeway pack" });
    return failure(problem("PACK_UNREADABLE", sayProblem("cli-problem.pack-unreadable"), { file }, remedy));
  };
  const list = unzipped(bytes, { names: new Set([SUMS]), most: 1_000_000 })?.get(SUMS);
  if (list === undefined) return unreadable();
  const lines = new TextDecoder().decode(list).split("\n").slice(0, -1);
  const sums = lines.map((line) => LINE.exec(line)?.slice(1) as [string, string] | undefined);
  if (sums.length === 0 || sums.includes(undefined)) return unreadable();
  const listed = sums as readonly [sum: string, name: string][];
  const strays = listed.filter(([, name]) => leaves(name));
  if (strays.length > 0) return failure(...strays.map(([, name]) => pathLeaves(name, file)));
  const found = unzipped(bytes, { names: new Set(listed.map(([, name]) => name)), most: MOST });
  if (found === undefined) return unreadable();
  const changed = listed.filter(([sum, name]) => !found.has(name) || sha256(found.get(name)!) !== sum);
  if (changed.length > 0) return failure(...changed.map(([, name]) => fileChanged(name, file)));
  return success(new Map(listed.map(([, name]) => [name, found.get(name)!])));
}

/** Whether a path could lead out of a folder, on any system: it has a step up, an empty step, a drive, a backslash or a control character. */
function leaves(path: string): boolean {
  return /^[a-z]:|[\\\p{Cc}]/iu.test(path) || path.split("/").some((step) => ["", ".", ".."].includes(step));
}

function isOther(path: string, content: Uint8Array): boolean {
  return existsSync(path) && !(statSync(path).isFile() && readFileSync(path).equals(content));
}

function pathLeaves(name: string, file: string): Problem {
  const remedy = sayProblem("cli-problem.pack-path-leaves-remedy");
  return problem(
    "PACK_PATH_LEAVES",
    sayProblem("cli-problem.pack-path-leaves", { name: plain(name) }),
    { file },
    remedy,
  );
}

function fileChanged(name: string, file: string): Problem {
  const remedy = sayProblem("cli-problem.pack-file-changed-remedy");
  return problem("PACK_FILE_CHANGED", sayProblem("cli-problem.pack-file-changed", { name }), { file }, remedy);
}

function folderTaken(path: string): Problem {
  const remedy = sayProblem("cli-problem.pack-folder-taken-remedy");
  return problem("PACK_FOLDER_TAKEN", sayProblem("cli-problem.pack-folder-taken"), { file: path }, remedy);
}
