import type { Collector } from "../compile/collector.js";
import type { Drill, Parameter, Settings } from "../model.js";
import { ladderValue } from "../rung/ladder.js";

/** Positions nearer than this are the same: far below any note value, and above the rounding of sums. */
export const SAME = 1e-9;

/** A drill that can be read, to be checked for whether it can be played, heard and judged. */
export interface CheckContext {
  readonly drill: Drill;
  readonly found: Collector;
  /** Where the drill says a parameter: its ladder, or its fixed value. */
  readonly pointerOf: (parameter: Parameter) => string;
}

/** The values a parameter takes anywhere in a drill: all of a list, the two ends of a progression, the fixed one, or none (`undefined`). */
export function valuesInForce(drill: Drill, parameter: Parameter): readonly Settings[Parameter][] {
  const ladder = drill.ladders.find((candidate) => candidate.parameter === parameter);
  if (ladder === undefined) return [drill.fixed[parameter]];
  if (ladder.values.kind === "list") return ladder.values.texts;
  return ladder.count === 1
    ? [ladderValue(ladder, 0)]
    : [ladderValue(ladder, 0), ladderValue(ladder, ladder.count - 1)];
}

/** All values of a progression when they are at most so many; otherwise what `valuesInForce` gives. */
export function allValuesInForce(drill: Drill, parameter: Parameter, most: number): readonly Settings[Parameter][] {
  const ladder = drill.ladders.find((candidate) => candidate.parameter === parameter);
  if (ladder === undefined || ladder.count > most) return valuesInForce(drill, parameter);
  return Array.from({ length: ladder.count }, (_, k) => ladderValue(ladder, k));
}
