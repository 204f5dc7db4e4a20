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

/**
 * Probability that `k` of `n` landings were left out because the player avoids landings, who leaves out other notes at rate `q`: Bayes' rule with
 * a uniform share under avoidance, B(k + 1, n - k + 1) against q^k (1 - q)^(n - k).
 *
 * @param k may be a fraction, the sum of the probabilities of each
 */
function avoidanceOf(k: number, n: number, q: number): number {
  if (k <= 0) return 0;
  const avoiding = AVOIDS * Math.exp(logGamma(k + 1) + logGamma(n - k + 1) - logGamma(n + 2));
  const chance = (1 - AVOIDS) * q ** k * (1 - q) ** (n - k);
  return avoiding / (avoiding + chance);
}

/** ln of the gamma function for x >= 1: Stirling's series with the argument moved up by seven (error below 1e-9; from memory, checked in the tests). */
function logGamma(x: number): number {
  let shift = 0;
  let y = x;
  for (; y < 8; y++) shift += Math.log(y);
  return (y - 0.5) * Math.log(y) - y + 0.5 * Math.log(2 * Math.PI) + 1 / (12 * y) - 1 / (360 * y ** 3) - shift;
}
