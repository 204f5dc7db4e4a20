import { type Result, success } from "../../base/index.js";
import { compileCourse } from "../../curriculum/index.js";
import { sha256 } from "../../node/index.js";
import type { PublishedFile } from "../../schema/index.js";
import { withRecordings } from "../page/courseRecordings.js";
import { coursesWithRiffs } from "../page/courseRiffs.js";
import { bytesOf, pageFiles } from "../page/pageFiles.js";
import { pageParts } from "../page/pageParts.js";
import { fontsWith } from "../render/sheets.js";
import { version } from "../version.js";
import { keepOrMake, type NewFile, type PublishFolder, stopped } from "./folder.js";
import { PUBLISH_EDITION, type Publishing, type PublishPlan } from "./plan.js";

/** Files of the practice page that the index page has too. */
const SHARED = ["page.css", "icon.svg"];

/** The practice page as a folder and as one file, and what of it the index page has. Problem: PAGE_PARTS_MISSING. */
export async function publishPractice(
  folder: PublishFolder,
  { course, file, options }: PublishPlan,
  { words, signal, engraver }: Publishing,
): Promise<Result<readonly PublishedFile[]>> {
  const parts = await pageParts(words.language);
  if (!parts.ok) return parts;
  const fonts = fontsWith(options.font);
  if (!fonts.ok) return fonts;
  const { other } = fonts.value;
  const sums = parts.value.map(({ path, content }) => [path, sha256(content)]);
  const from = sha256(
    JSON.stringify([
      "practice",
      version,
      PUBLISH_EDITION,
      compileCourse(course),
      words.language,
      sums,
      ...(other === undefined ? [] : [sha256(other)]),
    ]),
  );
  return keepOrMake(folder, from, async () => {
    const engraved = await coursesWithRiffs([course], {
      engraver: await engraver(),
      fonts: fonts.value,
      words,
      isOver: () => signal.aborted,
    });
    if (signal.aborted) return stopped(folder);
    const courses = await withRecordings(engraved.courses, { fileOf: () => file, isOver: () => signal.aborted });
    if (!courses.ok) return courses;
    if (signal.aborted) return stopped(folder);
    const making = { parts: parts.value, words };
    const page = pageFiles(courses.value, { ...making, isSingle: false });
    const [single] = pageFiles(courses.value, { ...making, isSingle: true });
    const written = (path: string, content: string | Uint8Array): NewFile => ({
      file: path,
      kind: "practice",
      content: bytesOf(content),
    });
    const files = [
      ...page.map(({ path, content }) => written(`practice/${path}`, content)),
      ...page.filter(({ path }) => SHARED.includes(path)).map(({ path, content }) => written(path, content)),
      written("practice.html", single!.content),
    ];
    return success(files, [...engraved.problems, ...courses.advice]);
  });
}
