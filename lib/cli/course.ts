import {
  type Curriculum,
  type Drill,
  failure,
  findRung,
  nearestName,
  placedUnder,
  problemsOf,
  type Result,
  type Rung,
  readCurriculum,
  success,
} from "../index.js";
import { fileCodes } from "./codes.js";
import { readText } from "./files.js";
import { readerBeside } from "./folder.js";

const problem = problemsOf(fileCodes);

/** Bytes a curriculum file may have before the reader looks at it; the core's own limit is lower. */
export const COURSE_LIMIT: number = 20_000_000;

/** Texts of the files read so far, for excerpts beside problems. */
export type Sources = Map<string, string>;

/** The course in a file; its text is kept in `sources`. */
export function openCourse(file: string, sources: Sources): Result<Curriculum> {
  const text = readText(file, COURSE_LIMIT);
  if (!text.ok) return text;
  sources.set(file, text.value);
  return readCurriculum(text.value, { file, readFile: readerBeside(file) });
}

/** A drill of the course in a file. */
export function openDrill(
  file: string,
  name: string,
  sources: Sources,
): Result<{ readonly course: Curriculum; readonly drill: Drill }> {
  const course = openCourse(file, sources);
  if (!course.ok) return course;
  const drill = course.value.drills.find((each) => each.name === name);
  if (drill !== undefined) return success({ course: course.value, drill });
  const names = course.value.drills.map((each) => each.name);
  const nearest = nearestName(name, names);
  return failure(
    problem(
      "NO_SUCH_DRILL",
      `there is no drill "${name}"; the drills are ${names.join(", ")}`,
      { file },
      nearest === undefined ? undefined : `write ${nearest}`,
    ),
  );
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
