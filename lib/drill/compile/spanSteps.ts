import { add, compare, divide, type Fraction, floor, fraction, multiply, subtract } from "../../base/index.js";
import type { SpanStepsDocument } from "../../schema/index.js";
import { type Span, spanText } from "../../time/index.js";
import { onlyMeter, parseLength, spanIn } from "../length.js";
import type { Ladder } from "../model.js";
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
  const meter = onlyMeter(place.names.pattern);
  if (meter === undefined && (to.unit !== from.unit || by.unit !== from.unit)) {
    const message = `over a pattern that changes meter a ladder keeps to one unit; found ${document.from}, ${document.to} and ${document.by}`;
    found.add("LADDER_UNITS_DIFFER", message, pointer, `write all three in ${from.unit}s`);
    return undefined;
  }
  const inUnit = (span: Span): Fraction => (meter === undefined ? span : spanIn(from.unit, span, meter)).count;
  const step = inUnit(by);
  const steps = divide(subtract(inUnit(to), from.count), step);
  const text = (count: Fraction): string => spanText({ count, unit: from.unit });
  if (steps.n < 0) {
    const message = `steps of ${document.by} lead up from ${document.from}; the end ${document.to} is below`;
    found.add("LADDER_WRONG_WAY", message, pointer, `write from: ${document.to}, to: ${document.from}`);
    return undefined;
  }
  if (steps.d !== 1) {
    const below = add(from.count, multiply(step, fraction(floor(steps))));
    const message = `steps of ${document.by} from ${document.from} pass ${document.to} without reaching it`;
    found.add(
      "LADDER_NEVER_REACHES_ITS_END",
      message,
      `${pointer}/to`,
      `write ${text(below)} or ${text(add(below, step))}`,
    );
    return undefined;
  }
  return {
    count: steps.n + 1,
    values: { kind: "spans", from, by: compare(steps, fraction(0)) === 0 ? fraction(0) : step },
  };
}
