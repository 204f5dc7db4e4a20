import { type Curriculum, successorIn } from "../../curriculum/index.js";
import { type Drill, rungIndex, rungs, settingsText } from "../../drill/index.js";
import type { DrillStanding, EditionChanged, Standing } from "../../schema/index.js";
import { type Entries, type EventDraft, openEventWriter, writeEvent } from "../journal/event/writer.js";
import { openDrills } from "../openDrills.js";
import { rungStanding } from "../standing.js";

/** Largest number of rungs searched downward in the edition before: our choice, more than any student climbs rung by rung. */
const SEARCHED_RUNGS = 10_000;

export interface ChangeOptions {
  /** Time of the change for this student, RFC 3339. */
  readonly at: string;
  /**
   * The edition of the standing. It gives the order of its rungs and the former names of its drills. Without it, a student whose rung is
   * gone moves to the highest rung with credit, or else to the first, and a drill renamed by that edition is not found under its former name.
   */
  readonly before?: Curriculum;
}

/**
 * The events that move a standing into another edition and open drills there; no events when nothing changes.
 *
 * A rung with the same settings in the new edition keeps its takes and its credit. A student whose rung is gone moves to the nearest lower
 * rung that exists; if that rung has credit, one clean take is enough to go on. Nothing is deleted: when a later edition has the rung again,
 * the student moves back to it with the takes of that stay, unless another event has moved the student since.
 *
 * Throws `RangeError` when `at` is not an RFC 3339 time, the standing is in another curriculum, or `before` is not the edition of the standing.
 *
 * @example
 * changeEdition(next, standing, { at: "2026-09-01T08:00:00Z", before: course }).standing.edition === next.edition // true
 */
export function changeEdition(curriculum: Curriculum, standing: Standing, options: ChangeOptions): Entries {
  if (standing.curriculum !== curriculum.name)
    throw new RangeError(`the standing is in ${standing.curriculum}, the curriculum given is ${curriculum.name}`);
  const { at, before } = options;
  // The order of rungs of any other edition would move the student to a rung that is not the nearest lower one.
  if (before !== undefined && (before.name !== standing.curriculum || before.edition !== standing.edition))
    throw new RangeError(
      `the standing is in ${standing.curriculum} ${standing.edition}, the edition before given is ${before.name} ${before.edition}`,
    );
  const writer = openEventWriter(standing, at);
  const draft = editionDraft(curriculum, standing, before);
  if (draft !== undefined) {
    writeEvent(writer, draft);
    openDrills(curriculum, writer);
  }
  return { events: writer.events, standing: writer.standing };
}

/** The event of moving a standing into another edition; `undefined` when edition, drills and rungs stay the same. */
export function editionDraft(
  curriculum: Curriculum,
  standing: Standing,
  before?: Curriculum,
): EventDraft<EditionChanged> | undefined {
  const renamed: { from: string; to: string }[] = [];
  const moved: { drill: string; from: string; to: string }[] = [];
  const withdrawn: string[] = [];
  const reopened: string[] = [];
  const completeAgain: string[] = [];
  let unchanged = standing.edition === curriculum.edition;
  const successors = successorsOf(curriculum, standing, before);
  for (const held of standing.drills) {
    const drill = successors.get(held.drill);
    if (drill !== undefined && drill.name !== held.drill) renamed.push({ from: held.drill, to: drill.name });
    unchanged &&= (held.withdrawn === true) === (drill === undefined);
    if (drill === undefined) withdrawn.push(held.drill);
    else if (held.rung !== undefined) {
      const to = rungIn(drill, held, before);
      if (to !== held.rung) moved.push({ drill: drill.name, from: held.rung, to });
      const isFinished = (): boolean =>
        rungIndex(drill, to) === rungs(drill).count - 1 && rungStanding(held, to)?.credit !== undefined;
      if (held.state === "complete" && !isFinished()) reopened.push(drill.name);
      if (held.state === "open" && held.takenFrom?.state === "complete" && isFinished()) completeAgain.push(drill.name);
    }
  }
  if (unchanged && renamed.length + moved.length + reopened.length + completeAgain.length === 0) return undefined;
  const lost = standing.drills.flatMap(({ drill: name, rungs: held }) => {
    const drill = successors.get(name);
    return held
      .filter(({ rung, credit }) => credit !== undefined && rungIndex(drill, rung) === undefined)
      .map(({ rung }) => ({ drill: drill?.name ?? name, rung }));
  });
  return {
    kind: "edition changed",
    from: standing.edition,
    to: curriculum.edition,
    renamed,
    moved,
    lost,
    withdrawn,
    reopened,
    ...(completeAgain.length === 0 ? {} : { completeAgain }),
  };
}

/** Name of a drill in the standing -> the drill that continues it in an edition, with the same name or a new one. */
function successorsOf(
  curriculum: Curriculum,
  standing: Standing,
  before: Curriculum | undefined,
): ReadonlyMap<string, Drill> {
  const successors = new Map<string, Drill>();
  const present = new Map(curriculum.drills.map((drill) => [drill.name, drill]));
  const begun = new Set(standing.drills.filter(({ state }) => state !== "closed").map(({ drill }) => drill));
  for (const { drill: name, state } of standing.drills) {
    const drill = present.get(name) ?? successorIn(curriculum, name, before);
    if (drill === undefined) continue;
    // Two drills may continue as one. A student who has begun both keeps the first, so that neither overwrites the other.
    if (drill.name !== name && begun.has(drill.name)) continue;
    if (state !== "closed") begun.add(drill.name);
    successors.set(name, drill);
  }
  return successors;
}

/** The rung of the student in the new drill: the rung an edition took the student from, else the same rung, else the nearest lower one. */
function rungIn(drill: Drill, held: DrillStanding, before: Curriculum | undefined): string {
  const kept = [held.takenFrom?.rung, held.rung].find(
    (rung) => rung !== undefined && rungIndex(drill, rung) !== undefined,
  );
  return (
    kept ??
    rungBelow(
      drill,
      held,
      before?.drills.find(({ name }) => name === held.drill),
    )
  );
}

/** Settings text of the nearest rung below the rung of the student that `drill` has; its first rung when it has none of them. */
function rungBelow(drill: Drill, held: DrillStanding, old: Drill | undefined): string {
  const position = rungIndex(old, held.rung!);
  if (old !== undefined && position !== undefined) {
    const ladder = rungs(old);
    for (let i = position - 1; i >= 0 && i >= position - SEARCHED_RUNGS; i--) {
      const lower = settingsText(ladder.at(i).settings);
      if (rungIndex(drill, lower) !== undefined) return lower;
    }
  } else {
    const earned = held.rungs.filter(
      ({ credit, rung }) => credit !== undefined && rungIndex(drill, rung) !== undefined,
    );
    earned.sort((a, b) => rungIndex(drill, b.rung)! - rungIndex(drill, a.rung)!);
    if (earned[0] !== undefined) return earned[0].rung;
  }
  return settingsText(rungs(drill).at(0).settings);
}
