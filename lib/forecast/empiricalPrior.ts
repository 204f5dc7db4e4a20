import type { Belief } from "./belief.js";
import { normalOf } from "./particles.js";
import { DEFAULT_POPULATION, type Population } from "./population.js";
import type { Normal } from "./traits.js";

/** Students below whose number a population says less than the built-in one does. Our choice. */
const FEWEST = 5;
/** SD left to a trait on which all students seem to agree, as a share of the built-in one. Our choice. */
const LEAST_SD = 0.3;

/**
 * Population of some students, as the prior for new ones (empirical Bayes): mean and standard deviation of their posteriors, trait by trait. The
 * variance is that of the posterior means plus the mean of the posterior variances. Fewer than five students: the built-in population.
 *
 * @example
 * populationOf([priorBelief()]) === DEFAULT_POPULATION // true
 */
export function populationOf(beliefs: readonly Belief[]): Population {
  if (beliefs.length < FEWEST) return DEFAULT_POPULATION;
  const pooled = (normals: readonly Normal[], built: Normal): Normal => {
    const mean = normals.reduce((sum, each) => sum + each.mean, 0) / normals.length;
    const variance = normals.reduce((sum, each) => sum + (each.mean - mean) ** 2 + each.sd ** 2, 0) / normals.length;
    return { mean, sd: Math.max(Math.sqrt(variance), LEAST_SD * built.sd) };
  };
  const trait = (name: "motor" | "clock" | "bias" | "tempo" | "pull" | "rate"): Normal =>
    pooled(
      beliefs.map(({ particles }) => normalOf(particles, name === "motor" ? "first" : name)),
      DEFAULT_POPULATION[name],
    );
  return {
    motor: trait("motor"),
    clock: trait("clock"),
    bias: trait("bias"),
    tempo: trait("tempo"),
    pull: trait("pull"),
    // Practice has taken excess away since the start; the built-in population says what there was at the start.
    excess: DEFAULT_POPULATION.excess,
    rate: trait("rate"),
    // Lapses stand for whatever the model lacks. A player's own are soon known, and those of others would be counted twice.
    lapse: DEFAULT_POPULATION.lapse,
    // How far forecasts were off under another population says nothing of forecasts under this one.
    shift: DEFAULT_POPULATION.shift,
  };
}
