import { random } from "../base/index.js";
import type { Day } from "../time/index.js";
import { type Calibration, priorCalibration } from "./calibration.js";
import type { Particles } from "./particles.js";
import { DEFAULT_POPULATION, type Population } from "./population.js";
import type { Trait } from "./traits.js";

/**
 * Distribution of a player's traits, given the takes known so far: the prior, or the posterior. It is held as weighted particles.
 * The practice of every take so far is included. Plain data; give it back to `updateBelief` with the next take.
 */
export interface Belief {
  readonly population: Population;
  readonly particles: Particles;
  /** By how much forecasts must be shifted, by those made so far and their outcomes. */
  readonly calibration: Calibration;
  /** Takes learnt from. */
  readonly takes: number;
  /** The last day, and the takes learnt from on it; absent before the first day that is known. */
  readonly last?: { readonly day: Day; readonly takes: number };
}

/** Number of particles: our choice. The mean of a chance is then known to about one point in a hundred. */
const PARTICLES = 400;

/**
 * Prior for a player without takes: particles drawn from a population. Always the same particles for the same population.
 *
 * @example
 * priorBelief().takes // 0
 */
export function priorBelief(population: Population = DEFAULT_POPULATION): Belief {
  const chance = random("a player of whom nothing is known");
  const draw = (trait: Exclude<Trait, "first" | "form">): Float64Array =>
    Float64Array.from({ length: PARTICLES }, () => population[trait].mean + population[trait].sd * chance.normal());
  const motor = draw("motor");
  const particles: Particles = {
    weight: new Float64Array(PARTICLES).fill(1 / PARTICLES),
    traits: {
      motor,
      clock: draw("clock"),
      bias: draw("bias"),
      tempo: draw("tempo"),
      pull: draw("pull"),
      excess: draw("excess"),
      rate: draw("rate"),
      lapse: draw("lapse"),
      first: motor.slice(),
      form: new Float64Array(PARTICLES),
    },
  };
  return { population, particles, calibration: priorCalibration(population.shift), takes: 0 };
}
