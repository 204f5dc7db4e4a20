import { contentFiles, folderFiles, type PageCourse, type PageFile, singlePage } from "../../page/index.js";
import type { Words } from "../../words/index.js";

export interface Making {
  readonly parts: readonly PageFile[];
  readonly words: Words;
  readonly isSingle: boolean;
  /** Whether a school's server serves them. */
  readonly isOfSchool?: true;
}

/** The files of a page: a folder of them, or one file that holds everything. */
export function pageFiles(
  courses: readonly PageCourse[],
  { parts, words, isSingle, isOfSchool }: Making,
): readonly PageFile[] {
  const content = contentFiles(courses, words.language, isOfSchool ? { school: true } : {});
  const title = courses.length === 1 ? courses[0]!.course.title : words.say("page.name");
  const said = { language: words.language, title, noScript: words.say("page.needs-script") };
  if (!isSingle) return folderFiles({ content, parts, words: said });
  const textOf = (name: string): string => {
    const part = parts.find(({ path }) => path === name)!.content;
    return typeof part === "string" ? part : new TextDecoder().decode(part);
  };
  const language = words.language === "en" ? undefined : textOf(`words/${words.language}.js`);
  const html = singlePage({
    content,
    script: textOf("single.js"),
    style: textOf("page.css"),
    words: said,
    language,
  });
  return [{ path: "index.html", content: html }];
}

/** The bytes of a file of a page. */
export function bytesOf(content: PageFile["content"]): Uint8Array {
  return typeof content === "string" ? new TextEncoder().encode(content) : content;
}
