import type { Curriculum } from "../../curriculum/index.js";
import { INSTRUMENTS } from "../../pattern/index.js";
import { fileNamesOf } from "../fileNames.js";

/** What has a folder of its own; the folder of a drill is in that of a player, and holds those of its rungs. */
export const FOLDERS = ["drill", "rung", "player"] as const;

/** The names of drills, instruments and parts in file names. They follow from the whole course, so they do not depend on the choices. */
export interface RenderNames {
  readonly drill: (name: string) => string;
  readonly player: (instrument: string) => string;
  readonly part: (name: string) => string;
  /** The path of a file, with slashes, in the folders that were chosen. */
  readonly place: (file: string, of: Place) => string;
}

/** What a file is of. */
interface Place {
  readonly drill: string;
  /** The name of the rung's folder; absent for a file of the whole drill. */
  readonly rung?: string;
  /** The instrument of who reads it; absent for what is for everyone. */
  readonly player?: string | undefined;
}

/** Stands for the score of all parts at concert pitch, in the place of an instrument. */
export const CONCERT_SCORE = "concert-score";
/** Stands for the sheet of all parts. */
export const FULL_SCORE = "score";
/** The name of what is printed about a whole course. */
export const OVERVIEW = "overview";
/** Stands for a sheet at concert pitch. */
export const CONCERT_PITCH = "concert-pitch";
/** Stands for the student's part alone, and for a chart. */
export const STUDENT = "student";
export const CHART = "chart";
/** The folder of what is for all players. */
const EVERYONE = "everyone";
const TAKEN = [CONCERT_SCORE, FULL_SCORE, CONCERT_PITCH, STUDENT, CHART, EVERYONE];

export function namesIn({ drills, instruments, patterns }: Curriculum, folders: (typeof FOLDERS)[number]): RenderNames {
  const readers = drills.flatMap(({ players }) => players.map(({ instrument }) => instrument.name));
  const known = [...Object.keys(INSTRUMENTS), ...Object.keys(instruments), ...readers];
  const drill = fileNamesOf(drills.map(({ name }) => name));
  const player = fileNamesOf(known, { taken: TAKEN });
  const parts = Object.values(patterns).flatMap((pattern) => pattern.parts.map(({ name }) => name));
  return {
    drill,
    player,
    part: fileNamesOf([...new Set(parts)], { taken: [...TAKEN, ...known.map(player)] }),
    place(file, of) {
      const path = [drill(of.drill), file];
      if (folders === "rung" && of.rung !== undefined) path.splice(1, 0, of.rung);
      if (folders === "player") path.unshift(of.player === undefined ? EVERYONE : player(of.player));
      return path.join("/");
    },
  };
}
