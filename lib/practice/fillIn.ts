import type { Curriculum } from "../curriculum/index.js";
import { type Rung, settingsText } from "../drill/index.js";
import { takeIn } from "../progress/index.js";
import type { Standing, Take } from "../schema/index.js";
import { chooseDrill } from "./openStudent.js";
import type { NamedTake } from "./playedTo.js";

export interface FillInOptions {
  readonly course: Curriculum;
  readonly standing: Standing;
  /** The rung on the stand when the takes were played, with its drill. */
  readonly rung: Rung;
}

/** A take that says its drill and rung, and which of the two were filled in. */
export interface FilledIn {
  readonly take: NamedTake;
  readonly filled: readonly ("drill" | "rung")[];
}

/**
 * Fills in the drill and the rung that a take does not say, for a reader of files whose user has just played it. A take counted before gets those it was counted
 * for, any other take those on the stand. Whoever fills in must say so: an app says them itself when the take is played.
 *
 * @example
 * const { take, filled } = fillIn({ id: "evening-3", onsets: [0.02] }, { course, standing, rung });
 */
export function fillIn(take: Take & Required<Pick<Take, "id">>, { course, standing, rung }: FillInOptions): FilledIn {
  const counted = takeIn(standing, take.id);
  const drill = take.drill ?? counted?.drill ?? rung.drill.name;
  const filled = (["drill", "rung"] as const).filter((key) => take[key] === undefined);
  return { take: { ...take, drill, rung: take.rung ?? counted?.rung ?? rungIn(drill) }, filled };

  function rungIn(name: string): string {
    const other = name === rung.drill.name ? undefined : chooseDrill(course, standing, name);
    // A drill that is not there is told by `submit`.
    return settingsText((other?.ok ? other.value.rung : rung).settings);
  }
}
