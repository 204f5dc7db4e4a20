import { closeSync, openSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import type { Problem } from "../../base/index.js";
import { rewriteCurriculum } from "../../curriculum/index.js";
import { COURSE_LIMIT, factsBeside, readerBeside } from "../input/courseFile.js";
import { readBytes, textOf } from "../input/inputFile.js";
import { DONE, type Outcome, PROBLEMS, printJson, refuse, type Setting } from "../outcome.js";
import { unwritable } from "../output/outFile.js";
import { plain } from "../output/printableText.js";

/** `leeway check --rewrite FILE...`: converts the lines of each course to the present spelling, in place. A file that cannot be converted stays unchanged. */
export function checkRewrite(setting: Setting, files: readonly string[]): Outcome {
  let outcome: Outcome = DONE;
  for (const file of files) {
    const { problems, isChanged } = rewriteFile(setting, file);
    if (problems.length > 0) outcome = PROBLEMS;
    if (problems.length > 0 && !setting.json) refuse(setting, problems);
    const result = problems.length > 0 ? "kept" : isChanged ? "rewritten" : "nothing";
    if (setting.json) printJson(setting, { file, rewritten: isChanged, problems });
    else setting.terminal.print(`${plain(setting.words.say("cli.rewrite", { file, outcome: result }))}\n`);
  }
  return outcome;
}

function rewriteFile(
  { sources }: Setting,
  file: string,
): { readonly problems: readonly Problem[]; readonly isChanged: boolean } {
  const bytes = readBytes(file, COURSE_LIMIT);
  if (!bytes.ok) return { problems: bytes.problems, isChanged: false };
  const text = textOf(bytes.value, file);
  if (!text.ok) return { problems: text.problems, isChanged: false };
  sources.set(file, text.value);
  const rewritten = rewriteCurriculum(text.value, {
    file,
    readFile: readerBeside(file),
    readRecording: factsBeside(file),
  });
  if (!rewritten.ok) return { problems: rewritten.problems, isChanged: false };
  if (rewritten.value === text.value) return { problems: [], isChanged: false };
  const mark = hasMark(bytes.value) ? "\uFEFF" : "";
  const problems = replaceText(file, mark + rewritten.value);
  return { problems, isChanged: problems.length === 0 };
}

/** Whether a text begins with a byte order mark, which is kept. */
function hasMark(bytes: Uint8Array): boolean {
  return bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
}

/** Replaces the text of a file atomically. Its permissions stay, and a link to it stays a link. */
function replaceText(file: string, text: string): readonly Problem[] {
  let part: string | undefined;
  try {
    const real = realpathSync(file);
    part = `${real}.part`;
    const descriptor = openSync(part, "wx", statSync(real).mode);
    try {
      writeFileSync(descriptor, text);
    } finally {
      closeSync(descriptor);
    }
    renameSync(part, real);
    return [];
  } catch (error) {
    // A temporary file that existed before belongs to another process.
    const isOwn = !(error instanceof Error && "code" in error && error.code === "EEXIST");
    if (part !== undefined && isOwn) rmSync(part, { force: true });
    return [unwritable(file, error)];
  }
}
