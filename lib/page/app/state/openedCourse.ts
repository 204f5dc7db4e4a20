import { type Curriculum, openCourse } from "../../../curriculum/index.js";
import type { Rung } from "../../../drill/index.js";
import { formText } from "../../../render/sheet/index.js";
import { CONCERT, type ListedCourse, type Sheet, type SheetIndex, type SheetWidth } from "../../model.js";
import { fileText } from "./files.js";

/** A course of the page, open. */
export interface OpenedCourse {
  readonly course: Curriculum;
  /** Instruments that its riffs are engraved for; at concert pitch: `CONCERT`. */
  readonly readers: readonly string[];
  /** The riff of a rung for a reader; `undefined` when it was not engraved. */
  sheet(rung: Rung, reader: string, width: SheetWidth): Promise<Sheet | undefined>;
}

/** Opens a course of the page. Throws `Error` when its files are not there or not whole. */
export async function openListed({ file, sheets }: ListedCourse): Promise<OpenedCourse> {
  const [text, index] = await Promise.all([fileText(file), sheets === undefined ? "{}" : fileText(sheets)]);
  const course = openCourse(text);
  if (!course.ok) throw new Error(course.problems.map(({ message }) => message).join("; "));
  const places = JSON.parse(index) as SheetIndex;
  const readers = [...new Set(Object.values(places).flatMap((drill) => Object.keys(drill)))];
  return {
    course: course.value,
    readers: readers.length > 0 ? readers : instrumentsOf(course.value),
    sheet: async ({ drill, settings }, reader, width) => {
      const forms = places[drill.name]?.[reader] ?? places[drill.name]?.[CONCERT];
      const path = forms?.[formText(settings)]?.[width];
      return path === undefined ? undefined : (JSON.parse(await fileText(path)) as Sheet);
    },
  };
}

function instrumentsOf(course: Curriculum): readonly string[] {
  const named = course.drills.flatMap(({ players }) => players.map(({ instrument }) => instrument.name));
  return [...new Set(named), CONCERT];
}
