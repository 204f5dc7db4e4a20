// A player who leaves out landings rather than notes: how rare (our choice), with any share of the landings as likely as any other.
const AVOIDS = 0.05;
// The rate of leaving out notes before any was heard, and what that is worth in notes; as for the pairing (our choice).
const USUAL = 0.04;
const WORTH = 30;

/** How many were left out, of how many that were asked for. */
export interface LeftOutOf {
  readonly landings: { readonly out: number; readonly asked: number };
  /** The notes that are no landings. */
  readonly notes: { readonly out: number; readonly asked: number };
}

/** Probability that a player leaves out landings rather than notes, of one take or over several. */
export function avoidsLandings({ landings, notes }: LeftOutOf): number {
  return avoidanceOf(
    Math.min(landings.out, landings.asked),
    landings.asked,
    (notes.out + USUAL * WORTH) / (notes.asked + WORTH),
  );
}

// Shares that the integral over a uniform share is summed over: exact to a hundredth in landings of a hundred takes (our choice).
const SHARES = 500;

/**
 * Probability that `k` of `n` landings were left out because the player avoids landings, who leaves out other notes at rate `q`: Bayes' rule with
 * a uniform share under avoidance, the integral of x^k (1 - x)^(n - k), against q^k (1 - q)^(n - k).
 *
 * @param k may be a fraction, the sum of the probabilities of each
 */
function avoidanceOf(k: number, n: number, q: number): number {
  if (k <= 0) return 0;
  const chanceAt = (share: number): number => share ** k * (1 - share) ** (n - k);
  let avoiding = 0;
  for (let i = 0; i < SHARES; i++) avoiding += (AVOIDS / SHARES) * chanceAt((i + 0.5) / SHARES);
  return avoiding / (avoiding + (1 - AVOIDS) * chanceAt(q));
}
