import { type Curriculum, compileCourse } from "../../curriculum/index.js";
import type { ReadyRecording } from "../../recording/index.js";
import type { RiffPicture } from "../../render/sheet/index.js";
import type { ListedCourse, PageFile, PageIndex, RecordingIndex, Sheet, SheetIndex, SheetWidth } from "../model.js";

/** A course of a page, with its riffs where they are engraved. */
export interface PageCourse {
  readonly course: Curriculum;
  /** Absent: nothing was engraved. */
  readonly sheets?: readonly EngravedRiffs[];
  /** Absent for a course of notes. */
  readonly recordings?: readonly PageRecording[];
}

/** A recording made ready for some rungs: its sound as a FLAC file. */
export interface PageRecording extends Pick<ReadyRecording, "sha256" | "speed" | "semitones" | "from"> {
  readonly flac: Uint8Array;
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
 * The files that hold the courses of a page: `page.json`, each course compiled, its sheets, equal ones once, and its recordings. No courses give a page on
 * which one can be opened. The same courses give the same files.
 */
export function contentFiles(
  courses: readonly PageCourse[],
  language: string,
  of: Pick<PageIndex, "school"> = {},
): readonly PageFile[] {
  const pictures = new Map<string, string>();
  const files: PageFile[] = [];
  const listed = courses.map(({ course, sheets, recordings }, i): ListedCourse => {
    const put = (path: string, content: PageFile["content"]): string => {
      files.push({ path, content });
      return path;
    };
    const own = `courses/${i + 1}`;
    const { name, edition, title } = course;
    const index = recordings?.map(({ flac, ...recording }, k): RecordingIndex[number] => ({
      ...recording,
      file: put(`${own}-${k + 1}.flac`, flac),
    }));
    return {
      name,
      edition,
      title,
      file: put(`${own}.json`, compileCourse(course)),
      ...(sheets && { sheets: put(`${own}-sheets.json`, JSON.stringify(sheetIndex(sheets, pictures))) }),
      ...(index && { recordings: put(`${own}-recordings.json`, JSON.stringify(index)) }),
    };
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
