import { lstatSync, realpathSync } from "node:fs";
import { dirname, isAbsolute, relative, resolve, sep } from "node:path";
import {
  type Curriculum,
  type Drill,
  findDrill,
  findRung,
  placedUnder,
  type Result,
  type Rung,
  readCurriculum,
  success,
} from "../../index.js";
import type { CourseText } from "../../store/index.js";
import { readBytes, readText } from "./inputFile.js";

/** Bytes a curriculum file may have before the reader looks at it; the core's own limit is lower. */
export const COURSE_LIMIT: number = 20_000_000;

/** Texts of the files read so far, for excerpts beside problems. */
export type Sources = Map<string, string>;

/** The course in a file; its text is kept in `sources`. */
export function openCourse(file: string, sources: Sources): Result<Curriculum> {
  const read = readCourseText(file, sources);
  return read.ok ? success(read.value.course, read.advice) : read;
}

/** The course in a file, with its text and the files it takes parts from, as a store keeps them. */
export function readCourseText(
  file: string,
  sources: Sources,
): Result<{ readonly course: Curriculum; readonly text: CourseText }> {
  const read = readText(file, COURSE_LIMIT);
  if (!read.ok) return read;
  sources.set(file, read.value);
  const files: Record<string, Uint8Array> = {};
  const beside = readerBeside(file);
  const course = readCurriculum(read.value, {
    file,
    readFile: (path) => {
      const bytes = beside(path);
      if (bytes !== undefined) files[path] = bytes;
      return bytes;
    },
  });
  if (!course.ok) return course;
  const { name: curriculum, edition } = course.value;
  return success({ course: course.value, text: { curriculum, edition, file, text: read.value, files } }, course.advice);
}

/** A drill of the course in a file. */
export function openDrill(
  file: string,
  name: string,
  sources: Sources,
): Result<{ readonly course: Curriculum; readonly drill: Drill }> {
  const course = openCourse(file, sources);
  if (!course.ok) return course;
  const drill = findDrill(course.value, name, { file });
  return drill.ok ? success({ course: course.value, drill: drill.value }) : drill;
}

/** A rung of a drill, by index or settings. */
export function openRung(
  file: string,
  name: string,
  rung: string,
  sources: Sources,
): Result<{ readonly course: Curriculum; readonly drill: Drill; readonly rung: Rung }> {
  const opened = openDrill(file, name, sources);
  if (!opened.ok) return opened;
  const found = findRung(opened.value.drill, rung);
  if (!found.ok) return { ok: false, problems: found.problems.map((each) => placedUnder(each, "", file)) };
  return success({ ...opened.value, rung: found.value });
}

/** Bytes a file beside a curriculum may have; our choice, several times a full orchestral score in MusicXML. */
const PART_LIMIT = 20_000_000;

/**
 * A reader of files beside a curriculum: the bytes of a regular file in the curriculum's folder or below it, else `undefined`.
 * A path that leads out, also through a symbolic link, leads nowhere.
 */
export function readerBeside(curriculum: string): (path: string) => Uint8Array | undefined {
  return (path) => {
    if (path.includes("\0") || isAbsolute(path)) return undefined;
    try {
      const folder = realpathSync(dirname(resolve(curriculum)));
      const real = realpathSync(resolve(folder, path));
      if (!isWithin(folder, real) || !lstatSync(real).isFile()) return undefined;
      const bytes = readBytes(real, PART_LIMIT);
      return bytes.ok ? bytes.value : undefined;
    } catch {
      return undefined;
    }
  };
}

function isWithin(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== "" && way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}
