import { type Curriculum, drillCalled } from "../curriculum/index.js";
import { preparationCalled, rungCalled } from "../drill/index.js";
import { type Belief, priorBelief } from "./belief.js";
import { type DemandCache, demandCache } from "./demandCache.js";
import type { History } from "./history.js";
import { observationOf } from "./likelihood.js";
import { updateBelief } from "./particleFilter.js";
import type { Population } from "./population.js";

/**
 * Latest takes a posterior rests on, at most. Our choice: by then practice has changed the player, and the prior no longer matters. The first of them moves on by whole blocks, so
 * that what was learnt can be gone on from in between: a posterior rests on the latest 201 to 300 takes, or on all while there are no more.
 */
const LATEST = 300;
const BLOCK = 100;

/** What was learnt of a student, and from which takes of their history: from number `from` (0 is the first) up to, and without, number `to`. */
export interface Learning {
  readonly belief: Belief;
  readonly from: number;
  readonly to: number;
}

export interface LearningOptions {
  readonly population?: Population | undefined;
  readonly demands?: DemandCache;
  /** What was learnt before from the same takes, course and population: it is gone on from where it rests on the same first take. */
  readonly known?: Learning | undefined;
}

/**
 * Posterior after a student's takes, the latest 300 of them at most. Takes of rungs that the edition does not have, and that are no preparations of it, are passed over.
 *
 * @example
 * posteriorOf(course, historyOf(events)).takes // 1
 */
export function posteriorOf(
  curriculum: Curriculum,
  history: Pick<History, "takes">,
  options: LearningOptions = {},
): Belief {
  return learnFrom(curriculum, history, options).belief;
}

/**
 * The same posterior, with the takes it rests on: to be kept, and given back as `known` when there are more takes.
 *
 * @example
 * const { to } = learnFrom(course, historyOf(events)); // 1
 */
export function learnFrom(
  curriculum: Curriculum,
  { takes }: Pick<History, "takes">,
  { population, demands = demandCache(), known }: LearningOptions = {},
): Learning {
  const from = firstTaken(takes.length);
  const goesOn = known?.from === from && known.to <= takes.length ? known : undefined;
  let belief = goesOn?.belief ?? priorBelief(population);
  for (const played of takes.slice(goesOn?.to ?? from)) {
    const drill = drillCalled(curriculum, played.drill);
    const rung = rungCalled(drill, played.rung) ?? preparationCalled(drill, played.rung);
    if (rung !== undefined) belief = updateBelief(belief, observationOf(demands.of(rung).demand, played));
  }
  return { belief, from, to: takes.length };
}

/** Number of the first take that a posterior after so many rests on. */
function firstTaken(takes: number): number {
  return takes <= LATEST ? 0 : BLOCK * Math.ceil((takes - LATEST) / BLOCK);
}
