import type { Curriculum } from "../curriculum/index.js";
import { type Drill, rungs, settingsText } from "../drill/index.js";
import type { DrillStanding, EditionChanged, Standing } from "../schema/index.js";
import { openDrills } from "./openDrills.js";
import { rungIndex } from "./rungIndex.js";
import { type Draft, type Entries, openScribe, write } from "./scribe.js";
import { drillStanding, rungStanding } from "./standing.js";

/** Rungs of the edition before that are searched downward for one that stands: our choice, enough for any ladder a student climbs rung by rung. */
const SEARCHED_RUNGS = 10_000;

export interface ChangeOptions {
  /** When the edition changes for this student, RFC 3339. */
  readonly at: string;
  /** The edition until now: tells which rungs are lower. Without it the highest rung with credit is taken, else the first. */
  readonly before?: Curriculum;
}

/**
 * The events that take a standing over into another edition, and the drills that open in it; no events when nothing changes.
 *
 * A rung that has the same settings in the new edition keeps its takes and its credit. A student whose rung is not there goes to the
 * nearest lower one that is; where it was earned before, one clean take is enough to go on.
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
  let unchanged = standing.edition === curriculum.edition;
  for (const held of standing.drills) {
    const drill = successor(curriculum, standing, held.drill);
    if (drill !== undefined && drill.name !== held.drill) renamed.push({ from: held.drill, to: drill.name });
    for (const { rung, credit } of held.rungs) {
      if (credit !== undefined && rungIndex(drill, rung) === undefined)
        lost.push({ drill: drill?.name ?? held.drill, rung });
    }
    unchanged &&= (held.withdrawn === true) === (drill === undefined);
    if (drill === undefined) withdrawn.push(held.drill);
    else if (held.rung !== undefined) {
      const old = before?.drills.find((each) => each.name === held.drill);
      const to = rungIndex(drill, held.rung) === undefined ? rungBelow(drill, held, old) : held.rung;
      if (to !== held.rung) moved.push({ drill: drill.name, from: held.rung, to });
      const finished = rungIndex(drill, to) === rungs(drill).count - 1 && rungStanding(held, to)?.credit !== undefined;
      if (held.state === "complete" && !finished) reopened.push(drill.name);
    }
  }
  if (unchanged && renamed.length + moved.length + reopened.length === 0) return undefined;
  return {
    kind: "edition changed",
    from: standing.edition,
    to: curriculum.edition,
    renamed,
    moved,
    lost,
    withdrawn,
    reopened,
  };
}

/** The drill of an edition that carries on one of the standing, under its own or a new name. */
function successor(curriculum: Curriculum, standing: Standing, name: string): Drill | undefined {
  const same = curriculum.drills.find((drill) => drill.name === name);
  if (same !== undefined) return same;
  const now = Object.hasOwn(curriculum.formerly, name) ? curriculum.formerly[name] : undefined;
  // A student who has begun the drill under its new name as well keeps both, rather than have one overwrite the other.
  if (now !== undefined && (drillStanding(standing, now)?.state ?? "closed") !== "closed") return undefined;
  return curriculum.drills.find((drill) => drill.name === now);
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
