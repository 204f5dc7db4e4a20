import type { Traits } from "./traits.js";

/**
 * What so many takes of practice change in a player's noise: with noise A (1 + B exp(-rate n)), B shrinks by exp(-rate) a take.
 * Exponential, not a power: Heathcote, Brown & Mewhort 2000, Psychon. Bull. Rev. 7, 185-207 (abstract read).
 */
export function practised(
  { motor, excess, rate }: Pick<Traits, "motor" | "excess" | "rate">,
  takes: number,
): { readonly motor: number; readonly excess: number } {
  const kept = Math.exp(-takes * Math.exp(rate));
  const share = Math.exp(excess);
  return { motor: motor + Math.log((1 + share * kept) / (1 + share)), excess: excess - takes * Math.exp(rate) };
}
