import type { Problem } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { contentType } from "../../node/index.js";
import { classDocument, type PageCourse, type PageFile } from "../../page/index.js";
import type { FindFile, ServedFile } from "../../server/index.js";
import type { Words } from "../../words/index.js";
import { hasRecordings, withRecordings } from "../page/courseRecordings.js";
import { coursesWithRiffs } from "../page/courseRiffs.js";
import { bytesOf, pageFiles } from "../page/pageFiles.js";
import { openEngraver, sheetFonts } from "../render/sheets.js";

export interface SchoolFilesOptions {
  readonly parts: readonly PageFile[];
  readonly classParts: readonly PageFile[];
  readonly words: Words;
  /** The file that a course was read from. */
  readonly fileOf: (course: Curriculum) => string;
  /** Told what could not be engraved, and which recordings could not be read. */
  readonly tell: (problems: readonly Problem[]) => void;
}

/** Files with what is engraved and recorded: they are waited for, all others are there at once. */
const MADE_LATER = /^\/(?:courses\/\d+-(?:sheets\.json|recordings\.json|\d+\.flac)|sheets\/.*|service-worker\.js)$/;

/**
 * What a school serves beside its API: the practice page at "/", and the page of a class at "/class/". Riffs are engraved behind, so that the school is
 * open at once. `close` ends that.
 */
export function schoolFiles(
  courses: readonly Curriculum[],
  { parts, classParts, words, fileOf, tell }: SchoolFilesOptions,
): { readonly find: FindFile; close(): void } {
  let isOver = false;
  const made = (of: readonly PageCourse[]): ReadonlyMap<string, ServedFile> =>
    served("/", pageFiles(of, { parts, words, isSingle: false, isOfSchool: true }));
  const atOnce = new Map([
    ...made(courses.map((course) => ({ course, sheets: [], ...(hasRecordings(course) && { recordings: [] }) }))),
    ...classFiles(classParts, words),
  ]);
  const engrave = async (): Promise<ReadonlyMap<string, ServedFile>> => {
    const engraver = await openEngraver();
    const { courses: engraved, problems } = await coursesWithRiffs(courses, {
      engraver,
      fonts: sheetFonts(),
      words,
      isOver: () => isOver,
    });
    tell(problems);
    // What cannot be read is told as soon as it is known, once; the page says so where it would sound.
    const unread = new Set<string>();
    const tellOnce = (found: readonly Problem[]): void => {
      const news = found.filter(({ message, where }) => !unread.has(`${where.file} ${message}`));
      for (const { message, where } of news) unread.add(`${where.file} ${message}`);
      if (news.length > 0) tell(news);
    };
    const recorded = await withRecordings(engraved, { fileOf, isOver: () => isOver, tell: tellOnce });
    tell(recorded.ok ? recorded.advice : recorded.problems);
    return made(recorded.ok ? recorded.value : engraved);
  };
  let done: ReadonlyMap<string, ServedFile> | undefined;
  const whole = engrave().then((files) => {
    done = files;
    return files;
  });
  // Who asks for one of these files is told; a school without sheets goes on.
  whole.catch(() => undefined);
  return {
    find: (path) =>
      MADE_LATER.test(path) ? whole.then((files) => files.get(path)) : (done?.get(path) ?? atOnce.get(path)),
    close: () => {
      isOver = true;
    },
  };
}

function classFiles(parts: readonly PageFile[], words: Words): ReadonlyMap<string, ServedFile> {
  const said = {
    language: words.language,
    title: words.say("school.school"),
    noScript: words.say("school.needs-script"),
  };
  return served("/class/", [{ path: "index.html", content: classDocument(said) }, ...parts]);
}

function served(folder: string, files: readonly PageFile[]): ReadonlyMap<string, ServedFile> {
  return new Map(
    files.flatMap(({ path, content }) => {
      const file: ServedFile = { type: contentType(path), bytes: bytesOf(content) };
      // A service worker asks for the document by its name.
      const paths = path === "index.html" ? [folder, `${folder}${path}`] : [`${folder}${path}`];
      return paths.map((each) => [each, file] as const);
    }),
  );
}
