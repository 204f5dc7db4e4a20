import type { Belief } from "./belief.js";
import { type Chances, chancesOf } from "./chances.js";
import type { Demand } from "./demand.js";
import { traitsAt } from "./particles.js";
import { meanShift, moved, shiftedChance } from "./shift.js";

/** What may come of the next take, and how sure that is. */
export interface Forecast extends Chances {
  /** Nine times in ten the chance of a clean take lies in this range, given the takes known. */
  readonly interval: readonly [low: number, high: number];
  /** Takes the forecast rests on. */
  readonly takes: number;
}

/**
 * The chances of the next take by a player: the time model at every point believed possible, averaged, and shifted as the forecasts made so far
 * have shown. With no takes it is the forecast for any player of the population.
 *
 * @example
 * forecast(learn(believe(), evidence), demandOf(scoreOf(rung))).clean // 0.84
 */
export function forecast({ cloud, shift, takes }: Belief, demand: Demand): Forecast {
  const typical = meanShift(shift);
  const cleans: { readonly clean: number; readonly weight: number }[] = [];
  let [clean, beyond, unclear] = [0, 0, 0];
  for (let i = 0; i < cloud.weight.length; i++) {
    const weight = cloud.weight[i]!;
    const chances = chancesOf(traitsAt(cloud, i), demand);
    cleans.push({ clean: moved(chances.clean, typical), weight });
    clean += weight * chances.clean;
    beyond += weight * chances.beyond;
    unclear += weight * chances.unclear;
  }
  const now = shiftedChance(shift, clean);
  const rest = beyond + unclear;
  const share = rest > 0 ? beyond / rest : 1;
  cleans.sort((a, b) => a.clean - b.clean);
  const interval = [quantile(cleans, 0.05), quantile(cleans, 0.95)] as const;
  return { clean: now, beyond: (1 - now) * share, unclear: (1 - now) * (1 - share), interval, takes };
}

function quantile(sorted: readonly { readonly clean: number; readonly weight: number }[], share: number): number {
  let reached = 0;
  for (const { clean, weight } of sorted) {
    reached += weight;
    if (reached >= share) return clean;
  }
  return sorted.at(-1)!.clean;
}
