import { type Curriculum, compileCourse } from "../../curriculum/index.js";
import type { RiffPicture } from "../../render/sheet/index.js";
import type { ListedCourse, PageFile, PageIndex, Sheet, SheetIndex, SheetWidth } from "../model.js";

/** A course of a page, with its riffs where they are engraved. */
export interface PageCourse {
  readonly course: Curriculum;
  /** Absent: nothing was engraved. */
  readonly sheets?: readonly EngravedRiffs[];
}

/** The riff of a drill for one reader: each of its forms, at one width. */
export interface EngravedRiffs {
  readonly drill: string;
  /** Name of the instrument, or `CONCERT`. */
  readonly reader: string;
  readonly width: SheetWidth;
  readonly pictures: readonly RiffPicture[];
}

/**
 * The files that hold the courses of a page: `page.json`, each course compiled, and its sheets, equal ones once. No courses give a page on
 * which one can be opened. The same courses give the same files.
 */
export function contentFiles(
  courses: readonly PageCourse[],
  language: string,
  of: Pick<PageIndex, "school"> = {},
): readonly PageFile[] {
  const pictures = new Map<string, string>();
  const files: PageFile[] = [];
  const listed = courses.map(({ course, sheets }, i): ListedCourse => {
    const file = `courses/${i + 1}.json`;
    files.push({ path: file, content: compileCourse(course) });
    const { name, edition, title } = course;
    if (sheets === undefined) return { name, edition, title, file };
    const index = `courses/${i + 1}-sheets.json`;
    files.push({ path: index, content: JSON.stringify(sheetIndex(sheets, pictures)) });
    return { name, edition, title, file, sheets: index };
  });
  const index: PageIndex = { version: 1, language, courses: listed, ...of };
  const drawn = [...pictures].map(([content, path]): PageFile => ({ path, content }));
  return [{ path: "page.json", content: JSON.stringify(index) }, ...files, ...drawn];
}

/** Where each picture is; one that is not in `pictures` yet is added to them. */
function sheetIndex(sheets: readonly EngravedRiffs[], pictures: Map<string, string>): SheetIndex {
  const index: Record<string, Record<string, Record<string, Record<SheetWidth, string>>>> = {};
  for (const { drill, reader, width, pictures: drawn } of sheets)
    for (const { form, ...sheet } of drawn) {
      const text = JSON.stringify(sheet satisfies Sheet);
      const path = pictures.get(text) ?? `sheets/${pictures.size + 1}.json`;
      pictures.set(text, path);
      index[drill] ??= {};
      index[drill][reader] ??= {};
      index[drill][reader][form] ??= { narrow: path, wide: path };
      index[drill][reader][form][width] = path;
    }
  return index;
}
