import { type Drill, type Parameter, parseSettings, rungs, type Settings, settingsText } from "../../drill/index.js";
import type { Curriculum } from "../model.js";
import { type Alteration, alterationsBetween, sameData } from "./alterations.js";
import { successorIn } from "./formerNames.js";
import { everyValue, goneValues, parametersOf, sharedRungs } from "./sharedRungs.js";

/** The changes of one drill of the old edition. */
export interface DrillChange {
  /** Name in the old edition. */
  readonly drill: string;
  /** Name in the new edition; absent when it has no such drill. */
  readonly now?: string;
  /** Rungs in the old edition. */
  readonly rungs: number;
  /** Number of these rungs that the new edition has too, with the same settings. Credit for them still counts. */
  readonly kept: number;
  /** Reasons why the other rungs are lost; empty when all are kept. */
  readonly losses: readonly Loss[];
  /** Number of rungs of the new edition that the old one does not have. */
  readonly fresh: number;
  /** New values, for each setting that has some. */
  readonly gains: readonly Gain[];
  /** Changes that leave the settings of rungs as they are: no credit is lost by them. */
  readonly alterations: readonly Alteration[];
}

/** A reason for which rungs lose their credit. */
export interface Loss {
  readonly reason: "drill removed" | "setting added" | "setting removed" | "values removed" | "restarts elsewhere";
  readonly parameter?: Parameter;
  /** For "values removed": the number of removed values of the setting. */
  readonly values?: number;
  /** For "values removed": the first few of them. */
  readonly examples?: readonly string[];
}

/** Values of a setting that the old edition did not have. */
export interface Gain {
  readonly parameter: Parameter;
  readonly values: number;
  /** The first few of them. */
  readonly examples: readonly string[];
}

export interface EditionChanges {
  readonly from: string;
  readonly to: string;
  /** In the order of the old edition. */
  readonly drills: readonly DrillChange[];
  /** Drills of the new edition that continue none of the old one. */
  readonly added: readonly string[];
  /** Whether anything except the edition's number is changed. */
  readonly isChanged: boolean;
}

/**
 * Compares two editions of a course: what the new one keeps and loses. A rung keeps its credit when its drill is still there (under its
 * name or a former name) and still has a rung with the same settings. Notes, tolerance, gate and the like may change without loss; they
 * are listed as alterations. The work grows with the number of ladders and not with the number of rungs.
 *
 * @example
 * compareEditions(old, now).drills.filter((change) => change.kept < change.rungs); // the drills in which something is lost
 */
export function compareEditions(old: Curriculum, now: Curriculum): EditionChanges {
  const drills = old.drills.map((drill): DrillChange => {
    const successor = successorIn(now, drill.name, old);
    const count = rungs(drill).count;
    if (successor === undefined) {
      const losses: readonly Loss[] = [{ reason: "drill removed" }];
      return { drill: drill.name, rungs: count, kept: 0, losses, fresh: 0, gains: [], alterations: [] };
    }
    const kept = sharedRungs(drill, successor);
    return {
      drill: drill.name,
      now: successor.name,
      rungs: count,
      kept,
      losses: kept === count ? [] : lossesOf(drill, successor),
      fresh: rungs(successor).count - kept,
      gains: gainsOf(drill, successor),
      // A need under another name is the same need.
      alterations: alterationsBetween(
        { ...drill, needs: drill.needs.map((need) => successorIn(now, need, old)?.name ?? need) },
        successor,
      ),
    };
  });
  const continued = new Set(drills.map((change) => change.now));
  const added = now.drills.map((drill) => drill.name).filter((name) => !continued.has(name));
  const isChanged = !sameData({ ...old, edition: "" }, { ...now, edition: "" });
  return { from: old.edition, to: now.edition, drills, added, isChanged };
}

/** The rung that takes over the credit for a rung of another edition. */
export interface Carried {
  readonly drill: string;
  /** Canonical settings text. */
  readonly settings: string;
  /** Index of the rung in the edition asked. */
  readonly index: number;
}

export interface CarriedOptions {
  /** The edition the rung belongs to. Needed when that edition renamed drills which have their former names in `now`. */
  readonly before?: Curriculum;
}

/** The rung of the edition `now` that takes over the credit for a rung given by drill and settings text; `undefined` when there is none and credit is lost. */
export function carriedTo(
  now: Curriculum,
  drill: string,
  settings: string,
  { before }: CarriedOptions = {},
): Carried | undefined {
  const successor = successorIn(now, drill, before);
  if (successor === undefined) return undefined;
  const read = parseSettings(settings);
  if (!read.ok) return undefined;
  const index = rungs(successor).indexOf(read.value as Settings);
  return index === undefined ? undefined : { drill: successor.name, settings: settingsText(read.value), index };
}

function lossesOf(old: Drill, now: Drill): readonly Loss[] {
  const [before, after] = [parametersOf(old), parametersOf(now)];
  const losses: Loss[] = [
    ...after
      .filter((parameter) => !before.includes(parameter))
      .map((parameter): Loss => ({ reason: "setting added", parameter })),
    ...before
      .filter((parameter) => !after.includes(parameter))
      .map((parameter): Loss => ({ reason: "setting removed", parameter })),
  ];
  for (const { parameter, values, examples } of gainsOf(now, old))
    losses.push({ reason: "values removed", parameter, values, examples });
  return losses.length > 0 ? losses : [{ reason: "restarts elsewhere" }];
}

/** The values that `now` has and `old` has not, for each parameter that both have. */
function gainsOf(old: Drill, now: Drill): readonly Gain[] {
  const before = parametersOf(old);
  return parametersOf(now)
    .filter((parameter) => before.includes(parameter))
    .flatMap((parameter): readonly Gain[] => {
      const { count, examples } = goneValues(everyValue(now, parameter), everyValue(old, parameter));
      return count === 0 ? [] : [{ parameter, values: count, examples }];
    });
}
