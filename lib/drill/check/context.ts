import type { Collector } from "../compile/collector.js";
import type { Drill, Parameter, Settings } from "../model.js";
import { partsTextsIn } from "../partsInTake.js";
import { ladderValue } from "../rung/ladder.js";

/** Positions nearer than this are equal, in whole notes: far below any note value, and above the rounding of sums. */
export const SAME = 1e-9;

/** A compiled drill that is checked, and the collector of its problems. */
export interface CheckContext {
  readonly drill: Drill;
  readonly found: Collector;
  /** The JSON pointer to a parameter: its ladder, or its fixed value. */
  readonly pointerOf: (parameter: Parameter) => string;
}

/** The values of a parameter to check: all values of a list, the two ends of a progression, the fixed value, or `undefined` when there is none. */
export function valuesInForce(drill: Drill, parameter: Parameter): readonly Settings[Parameter][] {
  const ladder = drill.ladders.find((candidate) => candidate.parameter === parameter);
  if (ladder === undefined) return [drill.fixed[parameter]];
  if (ladder.values.kind === "list") return ladder.values.texts;
  return ladder.count === 1
    ? [ladderValue(ladder, 0)]
    : [ladderValue(ladder, 0), ladderValue(ladder, ladder.count - 1)];
}

/** All values of a parameter when there are at most `most` of them; else those of `valuesInForce`. */
export function allValuesInForce(drill: Drill, parameter: Parameter, most: number): readonly Settings[Parameter][] {
  const ladder = drill.ladders.find((candidate) => candidate.parameter === parameter);
  if (ladder === undefined || ladder.count > most) return valuesInForce(drill, parameter);
  return Array.from({ length: ladder.count }, (_, k) => ladderValue(ladder, k));
}

/** The sets of parts that drop in some phrase of some rung, as texts; `undefined` where all but the student's do. */
export function partsInForce(drill: Drill): readonly Settings["parts"][] {
  return valuesInForce(drill, "parts").flatMap((parts) => (parts === undefined ? parts : partsTextsIn(parts)));
}
