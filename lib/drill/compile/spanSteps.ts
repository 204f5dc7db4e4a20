import { add, compare, divide, type Fraction, floor, fraction, multiply, subtract } from "../../base/index.js";
import type { SpanStepsDocument } from "../../schema/index.js";
import { type Span, spanText } from "../../time/index.js";
import { onlyMeter, parseLength, spanIn } from "../length.js";
import type { Ladder } from "../model.js";
import { say } from "../say.js";
import type { LadderPlace } from "./place.js";

/**
 * Compiles a ladder of lengths from `from` to `to` by equal steps, counted in the unit of `from`. The steps must reach `to` exactly.
 * Lengths only grow, because easier rungs come first.
 */
export function compileSpanSteps(
  document: SpanStepsDocument,
  place: LadderPlace,
): { readonly count: number; readonly values: Extract<Ladder["values"], { kind: "spans" }> } | undefined {
  const { found, pointer } = place;
  const from = found.keep(parseLength(document.from), `${pointer}/from`);
  const to = found.keep(parseLength(document.to), `${pointer}/to`);
  const by = found.keep(parseLength(document.by), `${pointer}/by`);
  if (!from || !to || !by) return undefined;
  const written = { from: document.from, to: document.to, by: document.by };
  const meter = onlyMeter(place.names.pattern);
  if (meter === undefined && (to.unit !== from.unit || by.unit !== from.unit)) {
    const message = say("drill-problem.ladder-units-differ", written);
    found.add(
      "LADDER_UNITS_DIFFER",
      message,
      pointer,
      say("drill-problem.ladder-units-differ-remedy", { unit: from.unit }),
    );
    return undefined;
  }
  const inUnit = (span: Span): Fraction => (meter === undefined ? span : spanIn(from.unit, span, meter)).count;
  const step = inUnit(by);
  const steps = divide(subtract(inUnit(to), from.count), step);
  const text = (count: Fraction): string => spanText({ count, unit: from.unit });
  if (steps.n < 0) {
    const message = say("drill-problem.ladder-wrong-way", { ...written, way: "up" });
    const remedy = say("drill-problem.ladder-wrong-way-length-remedy", { from: document.to, to: document.from });
    found.add("LADDER_WRONG_WAY", message, pointer, remedy);
    return undefined;
  }
  if (steps.d !== 1) {
    const below = add(from.count, multiply(step, fraction(floor(steps))));
    const message = say("drill-problem.ladder-never-reaches-its-end", written);
    const remedy = say("drill-problem.write-either", { first: text(below), second: text(add(below, step)) });
    found.add("LADDER_NEVER_REACHES_ITS_END", message, `${pointer}/to`, remedy);
    return undefined;
  }
  return {
    count: steps.n + 1,
    values: { kind: "spans", from, by: compare(steps, fraction(0)) === 0 ? fraction(0) : step },
  };
}
