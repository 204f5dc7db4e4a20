import { type Curriculum, drillCalled } from "../curriculum/index.js";
import { preparationCalled, rungCalled } from "../drill/index.js";
import { type Belief, priorBelief } from "./belief.js";
import { type DemandCache, demandCache } from "./demandCache.js";
import type { History } from "./history.js";
import { observationOf } from "./likelihood.js";
import { updateBelief } from "./particleFilter.js";
import type { Population } from "./population.js";

/** Latest takes a posterior rests on. Our choice: by then practice has changed the player, and the prior no longer matters. */
const LATEST = 300;

/**
 * Posterior after a student's takes, the latest 300 of them. Takes of rungs that the edition does not have, and that are no preparations of it, are passed over.
 *
 * @example
 * posteriorOf(course, historyOf(events)).takes // 1
 */
export function posteriorOf(
  curriculum: Curriculum,
  { takes }: Pick<History, "takes">,
  { population, demands = demandCache() }: { readonly population?: Population; readonly demands?: DemandCache } = {},
): Belief {
  let belief = priorBelief(population);
  for (const played of takes.slice(-LATEST)) {
    const drill = drillCalled(curriculum, played.drill);
    const rung = rungCalled(drill, played.rung) ?? preparationCalled(drill, played.rung);
    if (rung !== undefined) belief = updateBelief(belief, observationOf(demands.of(rung).demand, played));
  }
  return belief;
}
