import type { Traits } from "./traits.js";

/**
 * Learning curve: motor noise and excess (natural logarithms, as in `Traits`) after so many takes of practice (0 or more).
 * Noise is A (1 + B exp(-rate n)) after n takes, so that B shrinks by exp(-rate) a take.
 * Exponential, not a power: Heathcote, Brown & Mewhort 2000, Psychon. Bull. Rev. 7, 185-207 (abstract read).
 */
export function afterPractice(
  { motor, excess, rate }: Pick<Traits, "motor" | "excess" | "rate">,
  takes: number,
): Pick<Traits, "motor" | "excess"> {
  const kept = Math.exp(-takes * Math.exp(rate));
  const share = Math.exp(excess);
  return { motor: motor + Math.log((1 + share * kept) / (1 + share)), excess: excess - takes * Math.exp(rate) };
}
