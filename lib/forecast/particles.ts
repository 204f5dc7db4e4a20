import type { Random } from "../base/index.js";
import type { Normal, Trait, Traits } from "./traits.js";

/** Weighted particles, each the traits of one player it may be: `weight[i]` and `traits.NAME[i]` belong together. The weights add up to 1. */
export interface Particles {
  readonly weight: Float64Array;
  readonly traits: Readonly<Record<Trait, Float64Array>>;
}

const TRAITS: readonly Trait[] = [
  "motor",
  "clock",
  "bias",
  "tempo",
  "pull",
  "excess",
  "rate",
  "lapse",
  "first",
  "form",
];

/** Traits of one particle. */
export function traitsAt({ traits }: Particles, i: number): Traits {
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
    form: traits.form[i]!,
  };
}

/** Weighted mean and standard deviation of a trait. */
export function normalOf({ weight, traits }: Particles, trait: Trait): Normal {
  let mean = 0;
  for (let i = 0; i < weight.length; i++) mean += weight[i]! * traits[trait][i]!;
  let variance = 0;
  for (let i = 0; i < weight.length; i++) variance += weight[i]! * (traits[trait][i]! - mean) ** 2;
  return { mean, sd: Math.sqrt(variance) };
}

/**
 * Systematic resampling: indices of `count` particles, each as often as its weight says, in order. `start` (0 to 1) places the grid of
 * equal steps (Kitagawa 1996, "Monte Carlo filter and smoother for non-Gaussian nonlinear state space models", from memory).
 */
export function systematicSample(weight: Float64Array, count: number, start: number): Int32Array {
  const picked = new Int32Array(count);
  let from = 0;
  let reached = weight[0]!;
  for (let i = 0; i < count; i++) {
    while (reached < (i + start) / count && from < weight.length - 1) reached += weight[++from]!;
    picked[i] = from;
  }
  return picked;
}

/** Shrinkage of each particle to the mean; the kernel gives back the variance it takes. Our choice, near Liu & West's. */
const SHRINKAGE = 0.98;

/**
 * Particles of equal weights drawn from others: systematic resampling, then each particle moved a little by a normal kernel so that no two
 * are the same. Mean and variance are kept (Liu & West 2001, "Combined parameter and state estimation in simulation-based filtering",
 * from memory).
 */
export function resample(particles: Particles, chance: Random): Particles {
  const count = particles.weight.length;
  const picked = systematicSample(particles.weight, count, chance.uniform());
  const moved = TRAITS.map((trait) => {
    const { mean, sd } = normalOf(particles, trait);
    const width = sd * Math.sqrt(1 - SHRINKAGE ** 2);
    const values = Float64Array.from(
      picked,
      (k) => SHRINKAGE * particles.traits[trait][k]! + (1 - SHRINKAGE) * mean + width * chance.normal(),
    );
    return [trait, values] as const;
  });
  return { weight: new Float64Array(count).fill(1 / count), traits: Object.fromEntries(moved) as Particles["traits"] };
}
