import { failure, nearestName, success } from "../../base/index.js";
import { type Curriculum, drillCalled } from "../../curriculum/index.js";
import { findRung, onLadder, settingsText } from "../../drill/index.js";
import type { Standing } from "../../schema/index.js";
import { drillUnknown } from "../codes.js";
import { type Entries, openEventWriter, writeEvent } from "../journal/event/writer.js";
import type { Result } from "../problem.js";

export interface Placement {
  readonly drill: string;
  /** An index or settings, as `findRung` reads them: "3", "tempo=96". */
  readonly rung: string;
  readonly at: string;
  readonly teacher?: string;
  readonly because?: string;
  /** Set when a placement test found the rung; left out when a teacher decided. */
  readonly by?: "placement test";
}

/**
 * The event with which a teacher, or a placement test, puts a student on a rung; it also opens the drill if it is closed. It is never
 * evidence: the gate of the rung must be met again, and drills that need this one do not open.
 *
 * Problems: PROGRESS_DRILL_UNKNOWN, those of `findRung`, and RUNG_NOT_FOUND for a preparation. Throws `RangeError` when `at` is not an RFC 3339 time.
 *
 * @example
 * placeByTeacher(course, standing, { drill: drill.name, rung: "2", at: "2026-03-02T17:30:00Z", teacher: "heron" }).ok // true
 */
export function placeByTeacher(curriculum: Curriculum, standing: Standing, placement: Placement): Result<Entries> {
  const drill = drillCalled(curriculum, placement.drill);
  if (drill === undefined) {
    const names = curriculum.drills.map((each) => each.name);
    return failure(drillUnknown(curriculum, placement.drill, { nearest: nearestName(placement.drill, names) }));
  }
  const found = findRung(drill, placement.rung);
  const rung = found.ok ? onLadder(found.value) : found;
  if (!rung.ok) return rung;
  const writer = openEventWriter(standing, placement.at);
  const { teacher, because, by } = placement;
  writeEvent(writer, {
    kind: "set by teacher",
    drill: drill.name,
    to: settingsText(rung.value.settings),
    ...(teacher === undefined ? {} : { teacher }),
    ...(because === undefined ? {} : { because }),
    ...(by === undefined ? {} : { by }),
  });
  return success({ events: writer.events, standing: writer.standing });
}
