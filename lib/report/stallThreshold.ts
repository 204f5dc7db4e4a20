import type { Drill } from "../drill/index.js";
import { TARGET } from "../forecast/index.js";
import { gateCurve } from "../progress/index.js";
import type { Unmeasured } from "../schema/index.js";
import { unmeasured } from "./unmeasured.js";

/**
 * Chance of a clean take of a player for whom a rung is about right: the chance that plans aim at for new work.
 * The question is then how long such a player may need by bad luck alone.
 */
const READY = TARGET;
/**
 * Share of such players who meet the gate within the threshold. Our choice: one in twenty of those who only had bad luck is called stuck too,
 * which costs a teacher a look. One in a hundred would need a threshold about half as high again.
 */
const NEARLY_ALL = 0.95;
/**
 * Share of unclear takes of such a player. Our choice, one in five. Simulated able players have 18 % of silences unclear (`npm run bench --
 * accuracy`); unclear takes are no fault, but a player whose takes are mostly unclear does not advance either, and a teacher wants to know.
 */
const USUALLY_UNCLEAR = 0.2;
/** Threshold at most, in takes. Our choice: a gate that holds such players for longer says nothing about who is stuck. */
const LONGEST_WAIT = 500;

const known = new WeakMap<Drill, number | Unmeasured>();

/**
 * Stall threshold of a drill: takes on a rung, without reaching a new one, after which a student counts as stuck; or why there is none.
 *
 * @example stuckAfter(drill) // 8, when three clean takes of the last four let on
 */
export function stuckAfter(drill: Drill): number | Unmeasured {
  const found = known.get(drill) ?? threshold(drill);
  known.set(drill, found);
  return found;
}

function threshold({ gate }: Drill): number | Unmeasured {
  try {
    const { within } = gateCurve(gate, READY, { takes: LONGEST_WAIT, unclear: USUALLY_UNCLEAR });
    const place = within.findIndex((chance) => chance >= NEARLY_ALL);
    if (place >= 0) return place + 1;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return unmeasured("report.gate-too-wide");
  }
  return unmeasured("report.gate-holds", { takes: LONGEST_WAIT });
}
