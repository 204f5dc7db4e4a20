import {
  type Drill,
  type Ladder,
  type Parameter,
  parseSettings,
  rungs,
  type Settings,
  settingsText,
} from "../drill/index.js";
import type { Curriculum } from "./model.js";
import { type Stretch, sharedSteps } from "./sharedSteps.js";

/** What a new edition does to the rungs of one drill of the old one. */
export interface DrillChange {
  /** Name in the old edition. */
  readonly drill: string;
  /** Name in the new edition; absent when it has no such drill. */
  readonly now?: string;
  /** Rungs in the old edition. */
  readonly rungs: number;
  /** How many of these the new edition has too, with the same settings: what students have shown there still counts. */
  readonly kept: number;
  /** What became of the others; empty when all are kept. */
  readonly losses: readonly Loss[];
}

/** A reason for which rungs lose their credit. */
export interface Loss {
  readonly reason: "drill removed" | "setting added" | "setting removed" | "values removed" | "restarts elsewhere";
  readonly parameter?: Parameter;
  /** For "values removed": how many values of the setting are gone. */
  readonly values?: number;
}

export interface EditionChanges {
  readonly from: string;
  readonly to: string;
  /** In the order of the old edition. */
  readonly drills: readonly DrillChange[];
  /** Drills of the new edition that continue none of the old one. */
  readonly added: readonly string[];
}

/**
 * What a new edition of a course keeps and loses: a rung keeps its credit when its drill is still there (by name, or by the former name
 * it states) and still has a rung with the same settings. The work grows with the ladders, not with the rungs.
 *
 * @example
 * compareEditions(old, now).drills.filter((change) => change.kept < change.rungs); // the drills in which something is lost
 */
export function compareEditions(old: Curriculum, now: Curriculum): EditionChanges {
  const drills = old.drills.map((drill): DrillChange => {
    const successor = successorOf(now, drill.name);
    const count = rungs(drill).count;
    if (successor === undefined)
      return { drill: drill.name, rungs: count, kept: 0, losses: [{ reason: "drill removed" }] };
    const kept = sharedRungs(drill, successor);
    const losses = kept === count ? [] : lossesOf(drill, successor);
    return { drill: drill.name, now: successor.name, rungs: count, kept, losses };
  });
  const continued = new Set(drills.map((change) => change.now));
  const added = now.drills.map((drill) => drill.name).filter((name) => !continued.has(name));
  return { from: old.edition, to: now.edition, drills, added };
}

/** Where credit for a rung of an earlier edition goes. */
export interface Carried {
  readonly drill: string;
  /** Canonical settings text. */
  readonly settings: string;
  /** Index of the rung in the edition asked. */
  readonly index: number;
}

/** The rung of an edition that carries on a rung named by drill and settings text; `undefined` when there is none, so that credit is lost. */
export function carriedTo(now: Curriculum, drill: string, settings: string): Carried | undefined {
  const successor = successorOf(now, drill);
  if (successor === undefined) return undefined;
  const read = parseSettings(settings);
  if (!read.ok) return undefined;
  const index = rungs(successor).indexOf(read.value as Settings);
  return index === undefined ? undefined : { drill: successor.name, settings: settingsText(read.value), index };
}

function successorOf(now: Curriculum, name: string): Drill | undefined {
  const present = now.drills.find((drill) => drill.name === name);
  if (present !== undefined) return present;
  const renamed = Object.hasOwn(now.formerly, name) ? now.formerly[name] : undefined;
  return now.drills.find((drill) => drill.name === renamed);
}

/** How many rungs two drills share. The rungs of a drill fall into boxes, and two boxes share the product of what their sides share. */
function sharedRungs(old: Drill, now: Drill): number {
  const [left, right] = [boxesOf(old), boxesOf(now)];
  const parameters = parametersOf(old);
  if (!sameMembers(parameters, parametersOf(now))) return 0;
  let count = 0;
  for (const a of left) {
    for (const b of right) {
      let product = 1;
      for (const parameter of parameters) {
        if (product === 0) break;
        product *= sharedSteps(a.get(parameter)!, b.get(parameter)!);
      }
      count += product;
    }
  }
  return count;
}

type Box = ReadonlyMap<Parameter, Stretch>;

/**
 * The rungs of a drill as disjoint boxes, one side for each setting. Box h holds the rungs in which ladder h is the highest that has
 * left its bottom: those above it are at the bottom, those below it anywhere they go after a restart.
 */
function boxesOf(drill: Drill): readonly Box[] {
  const fixed = (Object.entries(drill.fixed) as [Parameter, string][]).map(
    ([parameter, text]): [Parameter, Stretch] => {
      const ladder: Ladder = { parameter, count: 1, values: { kind: "list", texts: [text] }, restart: "bottom" };
      return [parameter, { ladder, first: 0, end: 1 }];
    },
  );
  const boxes: Box[] = [];
  for (let highest = -1; highest < drill.ladders.length; highest++) {
    const climbing = drill.ladders.map((ladder, i): [Parameter, Stretch] => {
      if (i > highest) return [ladder.parameter, { ladder, first: 0, end: 1 }];
      return [ladder.parameter, { ladder, first: i === highest ? 1 : restartOf(ladder), end: ladder.count }];
    });
    boxes.push(new Map([...fixed, ...climbing]));
  }
  return boxes;
}

function restartOf(ladder: Ladder): number {
  return ladder.restart === "bottom" ? 0 : Math.max(0, ladder.count - 1 - ladder.restart);
}

function parametersOf(drill: Drill): readonly Parameter[] {
  return [...boxesOf(drill)[0]!.keys()];
}

function sameMembers(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((each) => b.includes(each));
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
  for (const parameter of before.filter((each) => after.includes(each))) {
    const [was, is] = [everyValue(old, parameter), everyValue(now, parameter)];
    const gone = was.end - sharedSteps(was, is);
    if (gone > 0) losses.push({ reason: "values removed", parameter, values: gone });
  }
  return losses.length > 0 ? losses : [{ reason: "restarts elsewhere" }];
}

function everyValue(drill: Drill, parameter: Parameter): Stretch {
  const ladder = drill.ladders.find((each) => each.parameter === parameter);
  if (ladder !== undefined) return { ladder, first: 0, end: ladder.count };
  return boxesOf(drill)[0]!.get(parameter)!;
}
