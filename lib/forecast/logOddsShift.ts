import type { Normal } from "./traits.js";

/**
 * Distribution of the amount by which the log odds of forecasts must be shifted to be calibrated: the probabilities of -STEPS ... STEPS
 * steps of WIDTH. They add up to 1.
 */
export type LogOddsShift = readonly number[];

/** Width of a step and their number either way: our choice, to a factor of 20 in the odds. */
const WIDTH = 0.15;
const STEPS = 20;
/** Chances nearer to 0 or 1 than this are taken for this, so that one surprise cannot undo all else. Our choice. */
const LEAST = 0.005;

/** Prior of the shift: normal, with mean and SD in log odds. */
export function priorShift({ mean, sd }: Normal): LogOddsShift {
  return normalized(Array.from({ length: 2 * STEPS + 1 }, (_, i) => Math.exp(-0.5 * ((amountAt(i) - mean) / sd) ** 2)));
}

/** Posterior of the shift by Bayes' rule: from the chance of a clean take that was forecast before the take, and whether it was clean. */
export function updateShift(shift: LogOddsShift, clean: number, was: boolean): LogOddsShift {
  const bounded = Math.min(1 - LEAST, Math.max(LEAST, clean));
  return normalized(
    shift.map((weight, i) => {
      const chance = shiftLogOdds(bounded, amountAt(i));
      return weight * (was ? chance : 1 - chance);
    }),
  );
}

/** Chance of a clean take, averaged over the distribution of the shift. */
export function shiftedChance(shift: LogOddsShift, clean: number): number {
  return shift.reduce((sum, weight, i) => sum + weight * shiftLogOdds(clean, amountAt(i)), 0);
}

/** Mean of the shift, in log odds. */
export function meanShift(shift: LogOddsShift): number {
  return shift.reduce((sum, weight, i) => sum + weight * amountAt(i), 0);
}

/** A chance (0 to 1) whose log odds are shifted by an amount. */
export function shiftLogOdds(chance: number, by: number): number {
  const odds = chance * Math.exp(by);
  return odds / (odds + 1 - chance);
}

function amountAt(index: number): number {
  return (index - STEPS) * WIDTH;
}

function normalized(weights: readonly number[]): LogOddsShift {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}
