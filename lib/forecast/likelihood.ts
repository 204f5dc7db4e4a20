import type { TakeAssessed } from "../schema/index.js";
import type { Verdict } from "../take/index.js";
import { normalBelow } from "../take/index.js";
import { chancesOf, type Spreads, spreadsOf } from "./chances.js";
import type { Demand } from "./demand.js";
import type { Traits } from "./traits.js";

/** What a take showed, as far as it is known; the figures are those a journal keeps of it. */
export interface Evidence {
  readonly demand: Demand;
  readonly verdict: Verdict;
  /** Drift of the silence with the largest, milliseconds, and its standard error. */
  readonly driftMs?: number;
  readonly standardErrorMs?: number;
  readonly accompaniedMs?: number;
}

/** A take gone astray drifts and jitters so many times more than the player usually does (our choice). */
const ASTRAY = 4;

/** Logarithm of the likelihood of a take for a player with given traits, up to a constant. */
export function logLikelihood(traits: Traits, { demand, verdict, ...seen }: Evidence): number {
  const spreads = spreadsOf(traits, demand);
  const lapse = 1 / (1 + Math.exp(-traits.lapse));
  const figures = [
    ...(seen.driftMs === undefined
      ? []
      : [
          (by: number) => largestDrift(spreads, demand, { drift: seen.driftMs!, error: seen.standardErrorMs ?? 0, by }),
        ]),
    ...(seen.accompaniedMs === undefined || demand.accompaniedNotes < 2
      ? []
      : [(by: number) => jitterDensity(spreads, seen.accompaniedMs!, by)]),
  ];
  // A verdict adds nothing to the figures it was drawn from; without figures it is all there is.
  if (figures.length === 0) {
    // An unclear one tells as well: it is no evidence for a gate, but those who play such takes go on to (measured on real trials).
    const { clean, beyond, unclear } = chancesOf(traits, demand);
    return Math.log(Math.max(1e-6, verdict === "within" ? clean : verdict === "beyond" ? beyond : unclear));
  }
  const usual = figures.reduce((product, density) => product * density(1), 1 - lapse);
  const astray = figures.reduce((product, density) => product * density(ASTRAY), lapse);
  return Math.log(Math.max(Number.MIN_VALUE, usual + astray));
}

/** Density of the drift that is the largest of all silences: one of them lies there, and all others no further out. */
function largestDrift(
  { drifts }: Spreads,
  { silences }: Demand,
  { drift, error, by }: { readonly drift: number; readonly error: number; readonly by: number },
): number {
  let sum = 0;
  let product = 1;
  drifts.forEach(({ mean, sd, error: usual }, i) => {
    // The measurement may have been better or worse than usual: the estimate then scatters more or less.
    const spread = by * Math.sqrt(Math.max(sd ** 2 + usual ** 2 - error ** 2, 0.25 * sd ** 2));
    const within = Math.max(
      1e-9,
      normalBelow((Math.abs(drift) - mean) / spread) - normalBelow((-Math.abs(drift) - mean) / spread),
    );
    sum += (silences[i]!.count * Math.exp(-0.5 * ((drift - mean) / spread) ** 2)) / spread / within;
    product *= within ** silences[i]!.count;
  });
  return sum * product;
}

function jitterDensity({ jitter, jitterSpread }: Spreads, found: number, by: number): number {
  const spread = by === 1 ? jitterSpread : Math.log(by);
  return Math.exp(-0.5 * (Math.log(Math.max(0.1, found) / jitter) / spread) ** 2) / spread;
}

/** What a journal's event of an assessed take (or the essentials of a finding) shows of a take with this demand. */
export function evidenceOf(
  demand: Demand,
  { verdict, measured = {} }: Pick<TakeAssessed, "verdict" | "measured">,
): Evidence {
  const { driftMs, standardErrorMs, accompaniedMs } = measured;
  return {
    demand,
    verdict,
    ...(driftMs === undefined ? {} : { driftMs }),
    ...(standardErrorMs === undefined ? {} : { standardErrorMs }),
    ...(accompaniedMs === undefined ? {} : { accompaniedMs }),
  };
}
