import type { Drill } from "../drill/index.js";
import { TARGET } from "../forecast/index.js";
import { gateCurve } from "../progress/index.js";
import type { Unmeasured } from "../schema/index.js";

/**
 * Chance of a clean take of somebody for whom a rung is about right: what plans aim at for new work.
 * The question is then how long such a player may need by bad luck alone.
 */
const READY = TARGET;
/**
 * Share of such players who are let on within as many takes as we wait before we call somebody stuck: our choice. One in twenty of those who only
 * had bad luck is named too, which costs a teacher a look; waiting for one in a hundred would take about half as many takes again.
 */
const NEARLY_ALL = 0.95;
/**
 * Share of takes that are unclear for somebody ready: our choice, one in five. Simulated able players have 18 % of silences unclear (`npm run bench --
 * accuracy`); unclear takes are no fault, but somebody whose takes are mostly unclear does not get on either, and a teacher wants to know.
 */
const USUALLY_UNCLEAR = 0.2;
/** Takes looked ahead at most: our choice; a gate that holds the ready for longer says nothing about who is stuck. */
const LONGEST_WAIT = 500;

const known = new WeakMap<Drill, number | Unmeasured>();

/**
 * Takes at the student's rung, without coming to a new one, after which a student counts as stuck in a drill; or why that cannot be said.
 *
 * @example stuckAfter(drill) // 8, when three clean takes of the last four let on
 */
export function stuckAfter(drill: Drill): number | Unmeasured {
  const found = known.get(drill) ?? wait(drill);
  known.set(drill, found);
  return found;
}

function wait({ gate }: Drill): number | Unmeasured {
  try {
    const { within } = gateCurve(gate, READY, { takes: LONGEST_WAIT, unclear: USUALLY_UNCLEAR });
    const place = within.findIndex((chance) => chance >= NEARLY_ALL);
    if (place >= 0) return place + 1;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { unmeasured: "this gate is too wide to compute" };
  }
  return { unmeasured: `this gate holds even those who are ready for more than ${LONGEST_WAIT} takes` };
}
