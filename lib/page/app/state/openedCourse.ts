import { type Curriculum, openCourse } from "../../../curriculum/index.js";
import type { Rung } from "../../../drill/index.js";
import { formText } from "../../../render/sheet/index.js";
import {
  CONCERT,
  type ListedCourse,
  type RecordingIndex,
  type Sheet,
  type SheetIndex,
  type SheetWidth,
} from "../../model.js";
import { fileText } from "./files.js";

/** A course of the page, open. */
export interface OpenedCourse {
  readonly course: Curriculum;
  /** Instruments of its players; at concert pitch: `CONCERT`. */
  readonly readers: readonly string[];
  /** The riff of a rung for a reader; `undefined` when it was not engraved. */
  sheet(rung: Rung, reader: string, width: SheetWidth): Promise<Sheet | undefined>;
  /** What the page has of the teacher's recordings. */
  recordings(): Promise<RecordingIndex>;
}

/** Opens a course of the page. Throws `Error` when its file is not there or not whole. */
export async function openListed({ file, sheets, recordings }: ListedCourse): Promise<OpenedCourse> {
  const course = openCourse(await fileText(file));
  if (!course.ok) throw new Error(course.problems.map(({ message }) => message).join("; "));
  let places: Promise<SheetIndex> | undefined;
  return {
    course: course.value,
    readers: instrumentsOf(course.value),
    sheet: async ({ drill, settings }, reader, width) => {
      places ??= sheetIndex(sheets);
      const found = (await places)[drill.name];
      const path = (found?.[reader] ?? found?.[CONCERT])?.[formText(settings)]?.[width];
      return path === undefined ? undefined : (JSON.parse(await fileText(path)) as Sheet);
    },
    recordings: async () =>
      recordings === undefined ? [] : (JSON.parse(await fileText(recordings)) as RecordingIndex),
  };
}

/** Where the sheets of a course are. Without them it is played from the strip: they may be lost, or a server may engrave them still. */
async function sheetIndex(path: string | undefined): Promise<SheetIndex> {
  return path === undefined ? {} : (JSON.parse(await fileText(path).catch(() => "{}")) as SheetIndex);
}

function instrumentsOf(course: Curriculum): readonly string[] {
  const named = course.drills.flatMap(({ players }) => players.map(({ instrument }) => instrument.name));
  return [...new Set(named), CONCERT];
}
