import { add, fractionText } from "../../../base/index.js";
import type { ScoreNote } from "../../../schema/index.js";
import { exactly } from "../../scoreTime.js";

/** How a pitched note begins and ends. */
export interface Manner {
  /** Whether the note before it is slurred to it, so that it has no attack. */
  readonly joined: boolean;
  /** Whether it gives way to the note after it. */
  readonly slurred: boolean;
  /** Whether it sounds up to its written end. */
  readonly whole: boolean;
  readonly scoop: boolean;
  readonly fall: boolean;
}

export const PLAIN: Manner = { joined: false, slurred: false, whole: false, scoop: false, fall: false };

/** The manner of each note of a part. A slur whose next note is not there, as in a silence, is none; dots under a slur are played apart. */
export function mannersOf(notes: readonly ScoreNote[]): readonly Manner[] {
  const goesOn = (note: ScoreNote): boolean => note.slurred === true && note.short !== true;
  const endOf = ({ position, length }: ScoreNote): string => fractionText(add(exactly(position), exactly(length)));
  if (!notes.some(({ slurred, tenuto, scoop, fall }) => slurred || tenuto || scoop || fall))
    return notes.map(() => PLAIN);
  const begin = new Set(notes.map(({ position }) => position));
  const led = new Set(notes.flatMap((note) => (goesOn(note) ? [endOf(note)] : [])));
  return notes.map((note) => {
    const slurred = goesOn(note) && begin.has(endOf(note));
    const { tenuto = false, scoop = false, fall = false } = note;
    return { joined: led.has(note.position), slurred, whole: slurred || tenuto, scoop, fall };
  });
}

/** A name of a manner, empty for a plain one. */
export function mannerName(manner: Manner): string {
  return Object.entries(manner)
    .flatMap(([name, is]) => (is ? [`/${name}`] : []))
    .join("");
}
