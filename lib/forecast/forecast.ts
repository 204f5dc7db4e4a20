import type { Belief } from "./belief.js";
import { calibrated } from "./calibration.js";
import { type Chances, chancesOf } from "./chances.js";
import type { Demand } from "./demand.js";
import { type Particles, traitsAt } from "./particles.js";

/** Chances of the next take, and how sure they are. */
export interface Forecast extends Chances {
  /** Central 90 % credible interval of the chance of a clean take, given the takes known. */
  readonly interval: readonly [low: number, high: number];
  /** Takes the forecast rests on. */
  readonly takes: number;
}

/**
 * Chance of a clean take in new work: about 85 %, where gradient learners on two-way choices learn fastest (Wilson, Shenhav, Straccia &
 * Cohen 2019, Nat. Commun. 10:4646, abstract read). That it holds for playing in time is assumed, not shown.
 */
export const TARGET = 0.85;

/**
 * Posterior predictive chances of a player's next take: the mean over all particles, with the log-odds shifts that earlier forecasts showed
 * to be needed. Without takes it is the forecast for any player of the population.
 *
 * @example
 * forecast(priorBelief(), demandOf(score)).clean > 0.5 // true
 */
export function forecast({ particles, calibration, takes }: Belief, demand: Demand): Forecast {
  const cleans: { readonly clean: number; readonly weight: number }[] = [];
  const mean = meanChances(particles, demand, (chances, weight) => {
    cleans.push({ clean: calibrated(calibration, demand, { chances, shifts: "typical" }).clean, weight });
  });
  cleans.sort((a, b) => a.clean - b.clean);
  const interval = [quantile(cleans, 0.05), quantile(cleans, 0.95)] as const;
  return { ...calibrated(calibration, demand, { chances: mean, shifts: "averaged" }), interval, takes };
}

/** The chance of a clean take alone, as `forecast` has it, at a third of its cost. */
export function cleanChance({ particles, calibration }: Belief, demand: Demand): number {
  return calibrated(calibration, demand, { chances: meanChances(particles, demand), shifts: "averaged" }).clean;
}

/** Mean chances over all particles, before they are shifted; each is shown as it comes. */
export function meanChances(
  particles: Particles,
  demand: Demand,
  shown?: (chances: Chances, weight: number) => void,
): Chances {
  let [clean, beyond, unclear] = [0, 0, 0];
  for (let i = 0; i < particles.weight.length; i++) {
    const weight = particles.weight[i]!;
    const chances = chancesOf(traitsAt(particles, i), demand);
    shown?.(chances, weight);
    clean += weight * chances.clean;
    beyond += weight * chances.beyond;
    unclear += weight * chances.unclear;
  }
  return { clean, beyond, unclear };
}

/** Weighted quantile of values in order. */
function quantile(sorted: readonly { readonly clean: number; readonly weight: number }[], share: number): number {
  let reached = 0;
  for (const { clean, weight } of sorted) {
    reached += weight;
    if (reached >= share) return clean;
  }
  return sorted.at(-1)!.clean;
}
