import type { Curriculum } from "../../curriculum/index.js";
import { rungIndex } from "../../drill/index.js";
import type { DrillStanding, EditionChanged, JournalEvent, RungStanding, Standing } from "../../schema/index.js";
import { drillStanding } from "../standing.js";
import { type ChangeOptions, changeEdition } from "./changeEdition.js";

/** The effect of an edition on a student in one drill. */
export interface DrillEffect {
  /** Name before. */
  readonly drill: string;
  /** Name after; absent when the edition does not have the drill. */
  readonly now?: string;
  /**
   * `moves back`: to the rung from which an earlier edition moved the student. `opens`: the drill was closed before. `returns`: the edition
   * has the drill again. `away`: the drill was withdrawn before, and still is.
   */
  readonly outcome: "stays" | "opens" | "moves" | "moves back" | "withdrawn" | "returns" | "away";
  readonly state: DrillStanding["state"];
  /** State after; of a withdrawn drill, the state with which it would return. */
  readonly stateNow: DrillStanding["state"];
  /** Settings text of the rung of the student before and after; absent while the drill is closed. */
  readonly rung?: string;
  readonly rungNow?: string;
  /** Takes and rungs with credit that count before and not after. All of them stay in the journal. */
  readonly lost: Shown;
  /** Takes and rungs with credit that an earlier edition lost and that count again. */
  readonly regained: Shown;
}

/** Evidence on rungs: the number of takes, and the settings texts of the rungs with credit. */
export interface Shown {
  readonly takes: number;
  readonly credit: readonly string[];
}

/** The effect of an edition on a student. */
export interface EditionEffect {
  readonly student: string;
  readonly curriculum: string;
  readonly from: string;
  readonly to: string;
  /** Whether anything changes for the student except the edition number. */
  readonly isAffected: boolean;
  /** Every drill of the standing, in its order. */
  readonly drills: readonly DrillEffect[];
  /** Names of the drills that open. */
  readonly opened: readonly string[];
  /** The events that would be written; empty when nothing changes. */
  readonly events: readonly JournalEvent[];
  /** The standing after these events. */
  readonly standing: Standing;
}

/**
 * The effect an edition would have on a student, drill by drill; nothing is written. Options and events are those of `changeEdition`.
 *
 * Throws `RangeError` as `changeEdition` does.
 *
 * @example
 * effectOfEdition(next, standing, { at: "2026-03-02T17:30:00Z", before: now }).drills.filter((each) => each.outcome !== "stays");
 */
export function effectOfEdition(curriculum: Curriculum, standing: Standing, options: ChangeOptions): EditionEffect {
  const { events, standing: after } = changeEdition(curriculum, standing, options);
  const change = events.find((event): event is EditionChanged => event.kind === "edition changed");
  const { before } = options;
  const drills = standing.drills.map((held) => {
    const name = change?.renamed.find(({ from }) => from === held.drill)?.to ?? held.drill;
    return drillEffect(held, drillStanding(after, name)!, { curriculum, before });
  });
  const opened = events.flatMap((event) => (event.kind === "drill opened" ? [event.drill] : []));
  const { student, curriculum: name, edition: from } = standing;
  const isAffected = opened.length > 0 || drills.some(isOtherwise);
  return {
    student,
    curriculum: name,
    from,
    to: curriculum.edition,
    isAffected,
    drills,
    opened,
    events,
    standing: after,
  };
}

interface Editions {
  readonly curriculum: Curriculum;
  readonly before: Curriculum | undefined;
}

function drillEffect(held: DrillStanding, after: DrillStanding, { curriculum, before }: Editions): DrillEffect {
  const drill = after.withdrawn ? undefined : curriculum.drills.find(({ name }) => name === after.drill);
  const old = before?.drills.find(({ name }) => name === held.drill);
  // Without the edition before, every rung of the new edition is assumed to have existed before.
  const was = ({ rung }: RungStanding): boolean =>
    held.withdrawn !== true && (before === undefined || rungIndex(old, rung) !== undefined);
  const is = ({ rung }: RungStanding): boolean => rungIndex(drill, rung) !== undefined;
  return {
    drill: held.drill,
    ...(drill === undefined ? {} : { now: drill.name }),
    outcome: outcomeOf(held, after),
    state: held.state,
    stateNow: after.state,
    ...(held.rung === undefined ? {} : { rung: held.rung }),
    ...(after.rung === undefined ? {} : { rungNow: after.rung }),
    lost: shownOn(held.rungs.filter((rung) => was(rung) && !is(rung))),
    regained: shownOn(held.rungs.filter((rung) => !was(rung) && is(rung))),
  };
}

function outcomeOf(held: DrillStanding, after: DrillStanding): DrillEffect["outcome"] {
  if (after.withdrawn) return held.withdrawn ? "away" : "withdrawn";
  if (held.withdrawn) return "returns";
  if (held.state === "closed" && after.state !== "closed") return "opens";
  if (held.rung === after.rung) return "stays";
  return held.takenFrom?.rung === after.rung ? "moves back" : "moves";
}

function shownOn(rungs: readonly RungStanding[]): Shown {
  return {
    takes: rungs.reduce((sum, { takes }) => sum + takes.length, 0),
    credit: rungs.flatMap(({ rung, credit }) => (credit === undefined ? [] : [rung])),
  };
}

function isOtherwise({ drill, now, outcome, state, stateNow, lost, regained }: DrillEffect): boolean {
  const isHere = outcome === "stays" && (now ?? drill) === drill && state === stateNow;
  const counts = [lost, regained].some(({ takes, credit }) => takes + credit.length > 0);
  return counts || !(isHere || outcome === "away");
}
