import { failure, success } from "../base/index.js";
import { drillCalled, findDrill } from "../curriculum/index.js";
import { type Drill, type Rung, rungCalled, rungs } from "../drill/index.js";
import { drillStanding } from "../progress/index.js";
import type { DrillStanding, Standing } from "../schema/index.js";
import type { Store } from "../store/index.js";
import { practiceProblem } from "./codes.js";
import { type CourseInUse, standingInUse, useFor } from "./courseInUse.js";
import { findJournal } from "./findJournal.js";
import type { Result } from "./problem.js";
import { sayProblem } from "./say.js";

/** A student at work. */
export interface OpenStudent {
  /** In the edition in use; when the student is in another one, as it will be once they play. */
  readonly standing: Standing;
  /** The drills that are open, in the order of the course, each with the rung to play. Empty when all are complete. */
  readonly open: readonly OpenDrill[];
}

export interface OpenDrill {
  readonly drill: Drill;
  readonly rung: Rung;
  readonly standing: DrillStanding;
}

/**
 * Where a student is, and what there is to play; nothing is written. `scoreFor(course, rung)` is what a rung sounds like, and `settingsText(rung.settings)`
 * is what a take of it must say as its `rung`.
 *
 * Problems: EDITION_BEHIND (see `useFor`), and those of `findJournal`. Rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * const tern = await openStudent(store, "tern", { course });
 */
export async function openStudent(store: Store, student: string, use: CourseInUse): Promise<Result<OpenStudent>> {
  const found = await findJournal(store, student, use.course.name);
  if (!found.ok) return found;
  const inUse = useFor(found.value.standing, use);
  if (!inUse.ok) return inUse;
  const standing = standingInUse(found.value.standing, inUse.value);
  const open = inUse.value.course.drills.flatMap((drill): readonly OpenDrill[] => {
    const held = drillStanding(standing, drill.name);
    const rung = rungCalled(drill, held?.rung);
    return held?.state === "open" && rung !== undefined ? [{ drill, rung, standing: held }] : [];
  });
  return success({ standing, open });
}

/**
 * The drill named, or the only one that is open, and the rung the student is on: the last one when the drill is complete, the first one while it is closed.
 *
 * Problems: DRILL_UNKNOWN, DRILL_NOT_CHOSEN.
 *
 * @example
 * const work = chooseDrill(course, standing, "half-bar");
 */
export function chooseDrill(
  course: CourseInUse["course"],
  standing: Standing,
  name?: string,
): Result<{ readonly drill: Drill; readonly rung: Rung }> {
  const drill = name === undefined ? onlyOpen(course, standing) : findDrill(course, name);
  if (!drill.ok) return drill;
  const held = drillStanding(standing, drill.value.name)?.rung;
  const rung = rungCalled(drill.value, held) ?? rungs(drill.value).at(0);
  return success({ drill: drill.value, rung });
}

function onlyOpen(course: CourseInUse["course"], standing: Standing): Result<Drill> {
  const open = standing.drills
    .filter(({ state }) => state === "open")
    .flatMap(({ drill }) => drillCalled(course, drill) ?? []);
  if (open.length === 1) return success(open[0]!);
  const { student } = standing;
  const message =
    open.length === 0
      ? sayProblem("practice-problem.no-drill-open", { student })
      : sayProblem("practice-problem.drill-not-chosen", { student, drills: open.map((each) => each.name) });
  const remedy = sayProblem("practice-problem.drill-not-chosen-remedy");
  return failure(practiceProblem("DRILL_NOT_CHOSEN", message, {}, remedy));
}
