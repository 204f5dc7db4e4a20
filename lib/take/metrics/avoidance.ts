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
 * a uniform share under avoidance, B(k + 1, n - k + 1), against q^k (1 - q)^(n - k). B is a product of n factors: of k only the part beyond a whole
 * number stays in gamma functions, of which Γ(1 + f) Γ(1 - f) = π f / sin π f (Euler's reflection formula, DLMF 5.5.3, from memory).
 *
 * @param k may be a fraction, the sum of the probabilities of each
 */
function avoidanceOf(k: number, n: number, q: number): number {
  if (k <= 0) return 0;
  const turn = Math.PI * (k % 1);
  // 0 / 0 where there is no such part.
  let avoiding = (AVOIDS / (n + 1)) * (turn / Math.sin(turn) || 1);
  for (let i = 1; i <= n; i++) avoiding *= (i > k ? i - k : i + (k % 1)) / i;
  return avoiding / (avoiding + (1 - AVOIDS) * q ** k * (1 - q) ** (n - k));
}
