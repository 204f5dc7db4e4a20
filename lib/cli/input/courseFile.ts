import { lstatSync, realpathSync } from "node:fs";
import { dirname, isAbsolute, relative, resolve, sep } from "node:path";
import { failureIn, type Result, success } from "../../base/index.js";
import { type Curriculum, findDrill, keptFacts, type ReadRecording, readCurriculum } from "../../curriculum/index.js";
import { type Drill, findRung, type Rung } from "../../drill/index.js";
import { recordingFacts } from "../../node/index.js";
import type { CourseText } from "../../store/index.js";
import { readBytes, readText } from "./inputFile.js";

/** Most bytes of a curriculum file; the limit of the core is lower. */
export const COURSE_LIMIT: number = 20_000_000;

/** Texts of the files read so far, for excerpts in problems. */
export type Sources = Map<string, string>;

/** Reads the course in a file; its text is kept in `sources`. */
export function openCourse(file: string, sources: Sources): Result<Curriculum> {
  const read = readCourseText(file, sources);
  return read.ok ? success(read.value.course, read.advice) : read;
}

/** Reads the course in a file, with its text and the files of its parts, as a store keeps them. */
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
    readRecording: (path) => {
      const facts = factsBeside(file)(path);
      if (facts !== undefined) files[path] = keptFacts(facts);
      return facts;
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

/** A rung of a drill, by number or settings. */
export function openRung(
  file: string,
  name: string,
  rung: string,
  sources: Sources,
): Result<{ readonly course: Curriculum; readonly drill: Drill; readonly rung: Rung }> {
  const opened = openDrill(file, name, sources);
  if (!opened.ok) return opened;
  const found = findRung(opened.value.drill, rung);
  if (!found.ok) return failureIn(file, found.problems);
  return success({ ...opened.value, rung: found.value });
}

/** Most bytes of a file beside a curriculum; our choice, several times a full orchestral score in MusicXML. */
const PART_LIMIT = 20_000_000;

/**
 * A reader of files beside a curriculum: the bytes of a regular file in the folder of the curriculum or below it, else `undefined`. A path out of
 * the folder, also through a symbolic link, gives `undefined`.
 */
export function readerBeside(curriculum: string): (path: string) => Uint8Array | undefined {
  return (path) => {
    const real = fileBeside(curriculum, path);
    const bytes = real === undefined ? undefined : readBytes(real, PART_LIMIT);
    return bytes?.ok === true ? bytes.value : undefined;
  };
}

/** What is known of recordings beside a curriculum; `undefined` as `readerBeside`. */
export function factsBeside(curriculum: string): ReadRecording {
  return (path) => {
    const real = fileBeside(curriculum, path);
    return real === undefined ? undefined : recordingFacts(real);
  };
}

/** The path on this machine of a regular file in the folder of a curriculum or below it, else `undefined`. */
export function fileBeside(curriculum: string, path: string): string | undefined {
  if (path.includes("\0") || isAbsolute(path)) return undefined;
  try {
    const folder = realpathSync(dirname(resolve(curriculum)));
    const real = realpathSync(resolve(folder, path));
    return isWithin(folder, real) && lstatSync(real).isFile() ? real : undefined;
  } catch {
    return undefined;
  }
}

function isWithin(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== "" && way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}
