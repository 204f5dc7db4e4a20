import type { Spread } from "./traits.js";

/** How likely it is that forecasts must be shifted by -STEPS ... STEPS steps of log odds. */
export type Shift = readonly number[];

/** Width of a step and their number either way: our choice, to a factor of 20 in the odds. */
const WIDTH = 0.15;
const STEPS = 20;
/** Chances nearer to 0 or 1 than this are taken for this, so that one surprise cannot undo all else. Our choice. */
const LEAST = 0.005;

export function beginShift({ mean, sd }: Spread): Shift {
  return scaled(Array.from({ length: 2 * STEPS + 1 }, (_, i) => Math.exp(-0.5 * ((at(i) - mean) / sd) ** 2)));
}

/** Bayes' rule for the shift, by a forecast that was made before the take and what came of it. */
export function learnShift(shift: Shift, clean: number, was: boolean): Shift {
  const bounded = Math.min(1 - LEAST, Math.max(LEAST, clean));
  return scaled(
    shift.map((weight, i) => {
      const chance = moved(bounded, at(i));
      return weight * (was ? chance : 1 - chance);
    }),
  );
}

/** The chance of a clean take, shifted by every amount as likely as it is. */
export function shiftedChance(shift: Shift, clean: number): number {
  return shift.reduce((sum, weight, i) => sum + weight * moved(clean, at(i)), 0);
}

export function meanShift(shift: Shift): number {
  return shift.reduce((sum, weight, i) => sum + weight * at(i), 0);
}

function at(index: number): number {
  return (index - STEPS) * WIDTH;
}

/** A chance whose log odds are moved. */
export function moved(chance: number, by: number): number {
  const odds = chance * Math.exp(by);
  return odds / (odds + 1 - chance);
}

function scaled(weights: readonly number[]): Shift {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}
