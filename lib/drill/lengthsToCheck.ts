import { compare } from "../base/index.js";
import { parseSpan, resolveSpan } from "../time/index.js";
import type { Drill } from "./model.js";
import { onlyMeter } from "./sameLength.js";
import { allValuesInForce } from "./valuesInForce.js";

/** Lengths of silence looked at one by one where their ends do not tell for all: our choice, more than a phrase has places for. */
const MOST_LENGTHS = 128;

/**
 * The lengths of silence that tell for all of a drill's. Where silences end on given bar lines a longer one begins earlier and nothing
 * else changes, so that the shortest and the longest tell; at the start of a phrase, or where the meter changes and lengths in
 * different units cannot be ordered, it takes all. `complete` is false when there are more than are looked at.
 */
export function lengthsToCheck(drill: Drill): { readonly lengths: readonly string[]; readonly complete: boolean } {
  const atStart = drill.dropout?.place.at === "start";
  const all = allValuesInForce(drill, "dropout", atStart ? MOST_LENGTHS : 0).filter((text) => text !== undefined);
  const meter = onlyMeter(drill.pattern);
  if (!atStart && meter !== undefined && all.length > 2) {
    const measured = all.flatMap((text) => {
      const span = parseSpan(text);
      return span.ok ? [{ text, length: resolveSpan(span.value, meter) }] : [];
    });
    const ordered = measured.sort((a, b) => compare(a.length, b.length));
    return { lengths: [ordered[0]!.text, ordered.at(-1)!.text], complete: true };
  }
  const ladder = drill.ladders.find(({ parameter }) => parameter === "dropout");
  const skipped = atStart && ladder !== undefined && ladder.count > MOST_LENGTHS;
  return { lengths: all.slice(0, MOST_LENGTHS), complete: !skipped && all.length <= MOST_LENGTHS };
}
