import { success } from "../base/index.js";
import { findDrill } from "../curriculum/index.js";
import { rungIndex, settingsText } from "../drill/index.js";
import { type Placing, resumePlacing } from "../plan/index.js";
import { changeEdition, drillStanding, type Entries, placeByTeacher } from "../progress/index.js";
import type { JournalEvent } from "../schema/index.js";
import { eventsOf, record, type Store } from "../store/index.js";
import { changeOptions, standingInUse, useFor } from "./courseInUse.js";
import { findJournal } from "./findJournal.js";
import { chooseDrill } from "./openStudent.js";
import type { NamedTake } from "./playedTo.js";
import type { Result } from "./problem.js";
import { type SubmitOptions, type Submitted, submit } from "./submit.js";

export interface PlaceOptions extends SubmitOptions {
  /** Name of the drill; the only one that is open when left out. */
  readonly drill?: string;
  /** A take of the rung asked for, as `submit` wants it; left out to ask what to play. */
  readonly take?: NamedTake;
  /** Who lets the student begin there; when left out, the journal says that the placement test did. */
  readonly teacher?: string;
}

/** How far finding a student's rung has come. */
export interface Placed extends Entries {
  /** What to play next or, when it is `done`, where the student begins. */
  readonly placing: Placing;
  /** What came of the take that was given. */
  readonly submitted?: Submitted;
}

/**
 * Finds where a new student begins in a drill, take by take: says what to play, takes the take as `submit` does, and in the end puts the student on
 * the rung found, unless it lies below their own. All that is known is in the journal, so it goes on where it was left off, on any device.
 * `events` are those that put the student there.
 *
 * Problems: DRILL_NOT_CHOSEN, EDITION_BEHIND, and those of `findJournal` and `submit`. Throws `RangeError` when `at` is not an RFC 3339 time; rejects with a
 * `StoreProblem` when the store fails.
 *
 * @example
 * const placed = await place(store, "tern", { course, drill: "steady", at: "2026-03-02T17:30:00Z" });
 */
export async function place(
  store: Store,
  student: string,
  { drill: name, take, teacher, ...use }: PlaceOptions,
): Promise<Result<Placed>> {
  const begun = await findJournal(store, student, use.course.name);
  if (!begun.ok) return begun;
  const inUse = useFor(begun.value.standing, use);
  if (!inUse.ok) return inUse;
  const chosen = chooseDrill(inUse.value.course, standingInUse(begun.value.standing, inUse.value), name);
  if (!chosen.ok) return chosen;
  const submitted = take === undefined ? undefined : await submit(store, student, take, use);
  if (submitted?.ok === false) return submitted;
  const placed = await settle(store, student, { ...use, drill: chosen.value.drill.name, ...(teacher && { teacher }) });
  return placed.ok && submitted !== undefined ? success({ ...placed.value, submitted: submitted.value }) : placed;
}

/** Puts the student on the rung found, once it is found and lies above their own; when others write meanwhile, it is looked at anew. */
async function settle(
  store: Store,
  student: string,
  { drill: name, teacher, at, ...given }: SubmitOptions & { readonly drill: string; readonly teacher?: string },
): Promise<Result<Placed>> {
  const key = { student, curriculum: given.course.name };
  const { result } = await record(store, key, async (journal): Promise<Answer> => {
    if (journal?.standing === undefined)
      return { events: [], result: (await findJournal(store, student, key.curriculum)) as Result<never> };
    const inUse = useFor(journal.standing, given);
    if (!inUse.ok) return { events: [], result: inUse };
    const use = inUse.value;
    const found = findDrill(use.course, name);
    if (!found.ok) return { events: [], result: found };
    const drill = found.value;
    const placing = resumePlacing(use.course, drill, { events: await eventsOf(store, key) });
    const moved = changeEdition(use.course, journal.standing, changeOptions(journal.standing, use, at));
    const own = rungIndex(drill, drillStanding(moved.standing, drill.name)?.rung);
    const isThere = own !== undefined && own >= placing.rung.index;
    if (!placing.done || isThere)
      return { events: [], result: success({ placing, standing: moved.standing, events: [] }) };
    const placed = placeByTeacher(use.course, moved.standing, {
      drill: drill.name,
      rung: settingsText(placing.rung.settings),
      at,
      because: placing.says,
      ...(teacher === undefined ? { by: "placement test" as const } : { teacher }),
    });
    // The rung is one of the drill's own: anything else is a defect.
    if (!placed.ok) throw new Error(placed.problems.map(({ message }) => message).join("; "));
    const events = [...moved.events, ...placed.value.events];
    return { events, result: success({ placing, standing: placed.value.standing, events }) };
  });
  return result;
}

interface Answer {
  readonly events: readonly JournalEvent[];
  readonly result: Result<Placed>;
}
