import { success } from "../../base/index.js";
import { readDocument } from "../../curriculum/index.js";
import { COURSE_LIMIT } from "./courseFile.js";
import { readText } from "./inputFile.js";

/** A line by itself that names the language, as nearly every course has it. */
const PLAIN_LINE = /^language: +(["']?)([A-Za-z][0-9A-Za-z-]*)\1[ \t]*(?:#.*)?$/m;

/** Where a key may name it in another way; without one, the whole course need not be read for it. A comment has no such key: `# yaml-language-server: ...`. */
const SOME_KEY = /(?:^|[\s{,?])["']?language["']?\s*:/im;

/**
 * The language that the course in a file asks for. It is read from the text before the course is checked, so that what is wrong with the course is said in
 * it; written in another way than on a line by itself, it is read as YAML.
 */
export function languageOfCourse(file: string): string | undefined {
  const text = readText(file, COURSE_LIMIT);
  // A file that cannot be read is the command's to tell.
  if (!text.ok || !SOME_KEY.test(text.value)) return undefined;
  const plain = PLAIN_LINE.exec(text.value)?.[2];
  if (plain !== undefined) return plain;
  let language: unknown;
  readDocument(text.value, {
    file,
    check: (value) => {
      language = typeof value === "object" && value !== null && "language" in value ? value.language : undefined;
      return success(value);
    },
  });
  // Another text is no tag, which whoever checks the course says.
  return typeof language === "string" && /^[A-Za-z][0-9A-Za-z-]*$/.test(language) ? language : undefined;
}
