import type { TakeAssessed } from "../schema/index.js";
import type { Verdict } from "../take/index.js";
import { normalBelow } from "../take/index.js";
import type { Day } from "../time/index.js";
import { chancesOf, distributionOf, type TakeDistribution } from "./chances.js";
import type { Demand } from "./demand.js";
import type { Traits } from "./traits.js";

/** Observation of one take: verdict and figures, as far as they are known. A journal keeps these figures. */
export interface Observation {
  readonly demand: Demand;
  readonly verdict: Verdict;
  /** Drift of the silence with the largest, milliseconds, and its standard error. */
  readonly driftMs?: number;
  readonly standardErrorMs?: number;
  readonly accompaniedMs?: number;
  /** The day it was played, when it is known. */
  readonly day?: Day;
}

/** Ratios of the drift and steadiness of a take gone astray to the usual ones of the player, each as likely: a heavy tail, so that a slip says little of the rest. Our choice. */
const ASTRAY = [2, 4, 8, 16] as const;

/** Log-likelihood of an observation that is not unclear for a player with given traits, up to a constant: a mixture of usual takes and takes gone astray. */
export function logLikelihood(traits: Traits, { demand, verdict, ...seen }: Observation): number {
  const distribution = distributionOf(traits, demand);
  const lapse = 1 / (1 + Math.exp(-traits.lapse));
  const figures = [
    ...(seen.driftMs === undefined
      ? []
      : [
          (by: number) =>
            largestDrift(distribution, demand, { drift: seen.driftMs!, error: seen.standardErrorMs ?? 0, by }),
        ]),
    ...(seen.accompaniedMs === undefined || demand.accompaniedNotes < 2
      ? []
      : [(by: number) => steadinessDensity(distribution, seen.accompaniedMs!, by)]),
  ];
  // The verdict follows from the figures and adds nothing to them. Without figures it is all there is.
  if (figures.length === 0) {
    const { clean, beyond } = chancesOf(traits, demand);
    const judged = Math.max(1e-6, clean + beyond);
    return Math.log(Math.max(1e-6, (verdict === "within" ? clean : beyond) / judged));
  }
  const usual = figures.reduce((product, density) => product * density(1), 1 - lapse);
  const astray = ASTRAY.reduce(
    (sum, by) => sum + figures.reduce((product, density) => product * density(by), lapse / ASTRAY.length),
    0,
  );
  return Math.log(Math.max(Number.MIN_VALUE, usual + astray));
}

/** Density of the largest drift of a take, milliseconds: one silence has it, and all others have no larger one. */
function largestDrift(
  { drifts }: TakeDistribution,
  { silences }: Demand,
  { drift, error, by }: { readonly drift: number; readonly error: number; readonly by: number },
): number {
  let sum = 0;
  let product = 1;
  drifts.forEach(({ mean, sd, error: usual }, i) => {
    // This measurement may have been better or worse than the usual one: the estimate then scatters more or less.
    const deviation = by * Math.sqrt(Math.max(sd ** 2 + usual ** 2 - error ** 2, 0.25 * sd ** 2));
    const within = Math.max(
      1e-9,
      normalBelow((Math.abs(drift) - mean) / deviation) - normalBelow((-Math.abs(drift) - mean) / deviation),
    );
    sum += (silences[i]!.count * Math.exp(-0.5 * ((drift - mean) / deviation) ** 2)) / deviation / within;
    product *= within ** silences[i]!.count;
  });
  return sum * product;
}

/** Density of the steadiness found, milliseconds: lognormal about its median, up to a constant. */
function steadinessDensity({ steadiness, steadinessSd }: TakeDistribution, found: number, by: number): number {
  const deviation = by === 1 ? steadinessSd : Math.log(by);
  return Math.exp(-0.5 * (Math.log(Math.max(0.1, found) / steadiness) / deviation) ** 2) / deviation;
}

/**
 * Observation of a take with this demand, from a journal's event of the assessed take or from the essentials of a finding.
 *
 * @example
 * const belief = updateBelief(priorBelief(), observationOf(demandOf(score), { verdict: "within" }));
 * belief.takes; // 1
 */
export function observationOf(
  demand: Demand,
  { verdict, measured = {}, day }: Pick<TakeAssessed, "verdict" | "measured"> & { readonly day?: Day },
): Observation {
  const { driftMs, standardErrorMs, accompaniedMs } = measured;
  return {
    demand,
    verdict,
    ...(day === undefined ? {} : { day }),
    ...(driftMs === undefined ? {} : { driftMs }),
    ...(standardErrorMs === undefined ? {} : { standardErrorMs }),
    ...(accompaniedMs === undefined ? {} : { accompaniedMs }),
  };
}
