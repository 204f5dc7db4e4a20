import { ladderValue } from "./ladderValue.js";
import type { Drill, Parameter, Settings } from "./model.js";

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
