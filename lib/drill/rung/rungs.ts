import type { Drill, Ladder, Parameter, Settings } from "../model.js";
import { ladderStep, ladderValue } from "./ladder.js";
import { odometer, type Wheel } from "./odometer.js";

/** One combination of the values of a drill's ladders. Its identity is `settingsText(settings)` and not its index. */
export interface Rung {
  readonly drill: Drill;
  /** From 0. People count from 1: `rungNumber`. A preparation, which looks like a rung and is none, has -1. */
  readonly index: number;
  /** The values of all parameters of the drill, on a ladder or fixed. */
  readonly settings: Settings;
}

/** The rungs of a drill. They are computed: no operation takes longer when there are more rungs. */
export interface Rungs {
  readonly count: number;
  /** Throws `RangeError` unless `index` is a whole number from 0 to `count - 1`. */
  at(index: number): Rung;
  /** The index of the rung with exactly these settings; `undefined` when there is none. */
  indexOf(settings: Settings): number | undefined;
  /** The rung after this one; `undefined` at the top. */
  next(rung: Rung): Rung | undefined;
  /** The rung before this one; `undefined` at the bottom. */
  previous(rung: Rung): Rung | undefined;
}

/**
 * The rungs of a drill in the order in which they are climbed: the first ladder climbs to its top, then the next ladder climbs one step and
 * the first starts again where its `restart` says. A drill without ladders has one rung.
 *
 * Throws `RangeError` when there are 2^53 rungs or more, which `compileDrill` reports as a problem before.
 *
 * @example
 * const all = rungs(drill);
 * settingsText(all.at(0).settings); // "tempo=72,variant=plain"
 * all.indexOf(all.at(7).settings); // 7
 */
export function rungs(drill: Drill): Rungs {
  const found = known.get(drill) ?? rungsOf(drill);
  known.set(drill, found);
  return found;
}

const known = new WeakMap<Drill, Rungs>();

function rungsOf(drill: Drill): Rungs {
  const order = odometer(drill.ladders.map(wheelOf));
  const at = (index: number): Rung => {
    const digits = order.at(index);
    const climbing = drill.ladders.map((ladder, i) => [ladder.parameter, ladderValue(ladder, digits[i]!)]);
    return { drill, index, settings: { ...drill.fixed, ...Object.fromEntries(climbing) } as Settings };
  };
  const parameters = new Set<Parameter>([
    ...(Object.keys(drill.fixed) as Parameter[]),
    ...drill.ladders.map((ladder) => ladder.parameter),
  ]);
  const indexOf = (settings: Settings): number | undefined => {
    const given = Object.keys(settings) as Parameter[];
    if (given.length !== parameters.size || given.some((parameter) => !parameters.has(parameter))) return undefined;
    const digits: number[] = [];
    for (const ladder of drill.ladders) {
      const digit = ladderStep(ladder, settings[ladder.parameter]!);
      if (digit === undefined) return undefined;
      digits.push(digit);
    }
    const climbs = new Set(drill.ladders.map((ladder) => ladder.parameter));
    if (given.some((parameter) => !climbs.has(parameter) && settings[parameter] !== drill.fixed[parameter]))
      return undefined;
    return order.indexOf(digits);
  };
  return {
    count: order.count,
    at,
    indexOf,
    next: (rung) => (rung.index + 1 < order.count ? at(rung.index + 1) : undefined),
    previous: (rung) => (rung.index > 0 ? at(rung.index - 1) : undefined),
  };
}

/**
 * The number of a rung as people count, from 1; 0 for a preparation.
 *
 * @example
 * rungNumber(rungs(drill).at(0)) // 1
 */
export function rungNumber({ index }: Pick<Rung, "index">): number {
  return index + 1;
}

/** The odometer wheel of a ladder. */
export function wheelOf(ladder: Ladder): Wheel {
  const revisited = ladder.restart === "bottom" ? ladder.count : Math.min(ladder.restart + 1, ladder.count);
  return { count: ladder.count, revisited };
}
