import type { Drill } from "../../drill/index.js";
import type { Instrument } from "../../pattern/index.js";
import type { Curriculum } from "../model.js";
import { COMPILED_VERSION, type CompactCourse, type CompactDrill, checksumOf } from "./format.js";

/**
 * A course as text that `openCourse` opens without YAML, validators or readers of music: one JSON document, as `schemas/compiled.schema.json` says. The
 * same course gives the same text.
 *
 * Throws `RangeError` for a course with a drill whose pattern is not one of the course.
 * @example
 * const text = compileCourse(course);
 * openCourse(text); // the course again
 */
export function compileCourse(course: Curriculum): string {
  const played: Instrument[] = [];
  const drills = course.drills.map((drill) => compact(drill, course, played));
  const { name, edition, title, about, imprint, instruments, patterns, formerly } = course;
  const written: CompactCourse = {
    name,
    edition,
    title,
    ...(about === undefined ? {} : { about }),
    ...(imprint === undefined ? {} : { imprint }),
    instruments,
    patterns,
    played,
    drills,
    formerly,
  };
  return `${JSON.stringify({ version: COMPILED_VERSION, checksum: checksumOf(written), course: written })}\n`;
}

function compact({ pattern, players, ...drill }: Drill, { patterns }: Curriculum, played: Instrument[]): CompactDrill {
  if (!Object.hasOwn(patterns, pattern.name))
    throw new RangeError(`the pattern of drill ${drill.name} must be one of the course's, got ${pattern.name}`);
  return {
    ...drill,
    pattern: pattern.name,
    players: players.map(({ instrument, octave }) => ({ instrument: numberOf(instrument, played), octave })),
  };
}

/** The number of an instrument in the list, to which it is added when it is new. */
function numberOf(instrument: Instrument, played: Instrument[]): number {
  const text = JSON.stringify(instrument);
  const found = played.findIndex((each) => JSON.stringify(each) === text);
  return found === -1 ? played.push(instrument) - 1 : found;
}
