import type { Random } from "../base/index.js";
import type { Spread, Trait, Traits } from "./traits.js";

/** Weighted points in the space of traits; the weights add up to 1. */
export interface Cloud {
  readonly weight: Float64Array;
  readonly traits: Readonly<Record<Trait, Float64Array>>;
}

const TRAITS: readonly Trait[] = ["motor", "clock", "bias", "tempo", "pull", "excess", "rate", "lapse", "first"];

export function traitsAt({ traits }: Cloud, i: number): Traits {
  return {
    motor: traits.motor[i]!,
    clock: traits.clock[i]!,
    bias: traits.bias[i]!,
    tempo: traits.tempo[i]!,
    pull: traits.pull[i]!,
    excess: traits.excess[i]!,
    rate: traits.rate[i]!,
    lapse: traits.lapse[i]!,
    first: traits.first[i]!,
  };
}

/** Mean and standard deviation of a trait. */
export function spreadOf({ weight, traits }: Cloud, trait: Trait): Spread {
  let mean = 0;
  for (let i = 0; i < weight.length; i++) mean += weight[i]! * traits[trait][i]!;
  let variance = 0;
  for (let i = 0; i < weight.length; i++) variance += weight[i]! * (traits[trait][i]! - mean) ** 2;
  return { mean, sd: Math.sqrt(variance) };
}

/** How much of each point stays its own when a cloud is drawn afresh; the rest is its share of a normal kernel. Our choice, near Liu & West's. */
const OWN = 0.98;

/**
 * A cloud of equal weights drawn from another: systematic resampling, then each point moved a little so that no two are the same, mean and
 * variance kept (Liu & West 2001, "Combined parameter and state estimation in simulation-based filtering", from memory).
 */
export function resampled(cloud: Cloud, chance: Random): Cloud {
  const count = cloud.weight.length;
  const picked = new Int32Array(count);
  const start = chance.uniform();
  let from = 0;
  let reached = cloud.weight[0]!;
  for (let i = 0; i < count; i++) {
    while (reached < (i + start) / count && from < count - 1) reached += cloud.weight[++from]!;
    picked[i] = from;
  }
  const moved = TRAITS.map((trait) => {
    const { mean, sd } = spreadOf(cloud, trait);
    const width = sd * Math.sqrt(1 - OWN ** 2);
    const values = Float64Array.from(
      picked,
      (k) => OWN * cloud.traits[trait][k]! + (1 - OWN) * mean + width * chance.normal(),
    );
    return [trait, values] as const;
  });
  return { weight: new Float64Array(count).fill(1 / count), traits: Object.fromEntries(moved) as Cloud["traits"] };
}
