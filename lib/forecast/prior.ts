import type { Belief } from "./belief.js";
import { spreadOf } from "./particles.js";
import { ANYBODY, type Population, type Spread } from "./traits.js";

/** Students below whose number a population says less than the built-in one does; our choice. */
const FEWEST = 5;
/** Spread left to a trait on which all students seem to agree, as a share of the built-in one; our choice. */
const LEAST_SPREAD = 0.3;

/**
 * The population some students are of, for forecasts of new ones: mean and spread of what is believed of each. The spread among them is
 * what their beliefs scatter by plus what each leaves open on average. Fewer than five students: the built-in population.
 */
export function populationOf(beliefs: readonly Belief[]): Population {
  if (beliefs.length < FEWEST) return ANYBODY;
  const pooled = (spreads: readonly Spread[], built: Spread): Spread => {
    const mean = spreads.reduce((sum, each) => sum + each.mean, 0) / spreads.length;
    const variance = spreads.reduce((sum, each) => sum + (each.mean - mean) ** 2 + each.sd ** 2, 0) / spreads.length;
    return { mean, sd: Math.max(Math.sqrt(variance), LEAST_SPREAD * built.sd) };
  };
  const trait = (name: "motor" | "clock" | "bias" | "tempo" | "pull" | "rate"): Spread =>
    pooled(
      beliefs.map(({ cloud }) => spreadOf(cloud, name === "motor" ? "first" : name)),
      ANYBODY[name],
    );
  return {
    motor: trait("motor"),
    clock: trait("clock"),
    bias: trait("bias"),
    tempo: trait("tempo"),
    pull: trait("pull"),
    // What practice has taken away is gone from the belief: the excess at the start is what the built-in population says.
    excess: ANYBODY.excess,
    rate: trait("rate"),
    // Lapses stand for whatever the model lacks; a player's own are soon known, and those of others would be taken twice.
    lapse: ANYBODY.lapse,
    // How far forecasts were off under another population says nothing of those under this one.
    shift: ANYBODY.shift,
  };
}
