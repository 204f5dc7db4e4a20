import type { Random } from "../base/index.js";
import type { Intention } from "./layOut.js";
import { HARD } from "./limits.js";
import { whyNew } from "./newWork.js";
import { type StepTerms, stepOf } from "./steps.js";
import type { WorkEstimate } from "./workEstimate.js";

/** Drills that take turns at most. Our choice: more would leave too few takes for each gate. */
const MOST_DRILLS = 3;

/** Interleaved practice: single takes of the rungs in work, in turns, in an order by chance; what is out of reach is left out. */
export function takeTurns(work: readonly WorkEstimate[], terms: StepTerms, random: Random): readonly Intention[] {
  const turns = work
    .filter((each) => each.chance >= HARD)
    .slice(0, MOST_DRILLS)
    .map((each) => ({ each, lot: random.uniform() }))
    .sort((a, b) => a.lot - b.lot)
    .map(({ each }) => ({
      step: stepOf(each.rung, "new work", terms),
      chance: each.chance,
      because: whyNew(each, terms.aim),
    }));
  const longest = Math.max(0, ...turns.map(({ step }) => step.most.takes));
  return Array.from({ length: longest }, (_, i) =>
    turns.filter(({ step }) => i < step.most.takes).map(({ step, ...said }) => ({ steps: [step], takes: 1, ...said })),
  ).flat();
}
