import { type Curriculum, successorIn } from "../curriculum/index.js";
import { type Drill, rungs, settingsText } from "../drill/index.js";
import type { DrillStanding, EditionChanged, Standing } from "../schema/index.js";
import { openDrills } from "./openDrills.js";
import { rungIndex } from "./rungIndex.js";
import { type Draft, type Entries, openScribe, write } from "./scribe.js";
import { rungStanding } from "./standing.js";

/** Rungs of the edition before that are searched downward for one that stands: our choice, enough for any ladder a student climbs rung by rung. */
const SEARCHED_RUNGS = 10_000;

export interface ChangeOptions {
  /** When the edition changes for this student, RFC 3339. */
  readonly at: string;
  /**
   * The edition until now: tells which rungs are lower, and what its drills were called before. Without it the highest rung with credit is
   * taken, else the first, and a drill it had renamed is not found again under its former name.
   */
  readonly before?: Curriculum;
}

/**
 * The events that take a standing over into another edition, and the drills that open in it; no events when nothing changes.
 *
 * A rung that has the same settings in the new edition keeps its takes and its credit. A student whose rung is not there goes to the
 * nearest lower one that is; where it was earned before, one clean take is enough to go on. Nothing is forgotten: an edition that has
 * the rung again puts the student back, unless something else has moved them since, with the takes of that stay.
 *
 * Throws `RangeError` when `at` is not an RFC 3339 time or the standing is in another curriculum.
 */
export function changeEdition(curriculum: Curriculum, standing: Standing, options: ChangeOptions): Entries {
  if (standing.curriculum !== curriculum.name)
    throw new RangeError(`the standing is in ${standing.curriculum}, the curriculum given is ${curriculum.name}`);
  const scribe = openScribe(standing, options.at);
  const draft = editionDraft(curriculum, standing, options.before);
  if (draft !== undefined) {
    write(scribe, draft);
    openDrills(curriculum, scribe);
  }
  return { events: scribe.events, standing: scribe.standing };
}

/** What another edition changes for a student; `undefined` when it is the same edition and everything is where it was. */
export function editionDraft(
  curriculum: Curriculum,
  standing: Standing,
  before?: Curriculum,
): Draft<EditionChanged> | undefined {
  const renamed: { from: string; to: string }[] = [];
  const moved: { drill: string; from: string; to: string }[] = [];
  const lost: { drill: string; rung: string }[] = [];
  const withdrawn: string[] = [];
  const reopened: string[] = [];
  const completeAgain: string[] = [];
  let unchanged = standing.edition === curriculum.edition;
  const successors = successorsOf(curriculum, standing, before);
  for (const held of standing.drills) {
    const drill = successors.get(held.drill);
    if (drill !== undefined && drill.name !== held.drill) renamed.push({ from: held.drill, to: drill.name });
    for (const { rung, credit } of held.rungs) {
      if (credit !== undefined && rungIndex(drill, rung) === undefined)
        lost.push({ drill: drill?.name ?? held.drill, rung });
    }
    unchanged &&= (held.withdrawn === true) === (drill === undefined);
    if (drill === undefined) withdrawn.push(held.drill);
    else if (held.rung !== undefined) {
      const old = before?.drills.find((each) => each.name === held.drill);
      const to = rungIn(drill, held, old);
      if (to !== held.rung) moved.push({ drill: drill.name, from: held.rung, to });
      const finished = rungIndex(drill, to) === rungs(drill).count - 1 && rungStanding(held, to)?.credit !== undefined;
      if (held.state === "complete" && !finished) reopened.push(drill.name);
      if (held.state === "open" && held.takenFrom?.state === "complete" && finished) completeAgain.push(drill.name);
    }
  }
  if (unchanged && renamed.length + moved.length + reopened.length + completeAgain.length === 0) return undefined;
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

/** Drills of a standing -> the drills of an edition that carry them on, under their own or another name. */
function successorsOf(
  curriculum: Curriculum,
  standing: Standing,
  before: Curriculum | undefined,
): ReadonlyMap<string, Drill> {
  const successors = new Map<string, Drill>();
  const begun = new Set(standing.drills.filter(({ state }) => state !== "closed").map(({ drill }) => drill));
  for (const { drill: name, state } of standing.drills) {
    const drill = successorIn(curriculum, name, before?.edition === standing.edition ? before : undefined);
    if (drill === undefined) continue;
    // A student who has begun the drill under its new name as well, or another that goes on as the same, keeps the first, rather than
    // have one overwrite the other.
    if (drill.name !== name && begun.has(drill.name)) continue;
    if (state !== "closed") begun.add(drill.name);
    successors.set(name, drill);
  }
  return successors;
}

/** The student's rung in the drill as it is now: back where an edition took them from, else the same, else the nearest lower one. */
function rungIn(drill: Drill, held: DrillStanding, old: Drill | undefined): string {
  const kept = [held.takenFrom?.rung, held.rung].find(
    (rung) => rung !== undefined && rungIndex(drill, rung) !== undefined,
  );
  return kept ?? rungBelow(drill, held, old);
}

/** Settings text of the nearest rung below the student's that stands in `drill`; its first rung when none does. */
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
