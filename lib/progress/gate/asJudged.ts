/** What verdicts make of takes: what is left of 1 in each is told as it is. */
export interface VerdictRates {
  /** Share of the takes that truly fail that are called within. */
  readonly failedWithin: number;
  /** Share of the takes that truly fail that are left unclear. */
  readonly failedUnclear: number;
  /** Share of the truly clean takes that are left unclear. */
  readonly cleanUnclear: number;
}

/**
 * Takes of a student none of whose failings is told: they are left unclear, as rests and landings left out are, and so do not count against the
 * clean ones; and one in twenty is called within (of players written apart from the library, who fail in ten ways, 3 to 5 of 100 are: one
 * landing left out among four that were played).
 */
export const NONE_TOLD: VerdictRates = { failedWithin: 0.05, failedUnclear: 0.95, cleanUnclear: 0 };

/** The same on takes without pitches where the rhythm hides slips: 8 of 100 are called within (the same players, on even sevens). */
export const NONE_TOLD_SLIPS_HIDDEN: VerdictRates = { failedWithin: 0.1, failedUnclear: 0.9, cleanUnclear: 0 };

/**
 * The chance that a take with a verdict is called clean, and that a take has none, for a student whose takes are truly clean with chance `p`: what
 * `gateCurve` goes by. Unclear takes of who fails do not count, so that the clean ones weigh more. Where nothing is unclear and nothing wrong the
 * chance stays `p`.
 *
 * Throws `RangeError` when a chance or share is not from 0 to 1, or no take has a verdict.
 *
 * @example asJudged(0.5, { failedWithin: 0, failedUnclear: 0.5, cleanUnclear: 0 }) // { p: 2 / 3, unclear: 0.25 }
 */
export function asJudged(
  p: number,
  { failedWithin, failedUnclear, cleanUnclear }: VerdictRates,
): { readonly p: number; readonly unclear: number } {
  for (const share of [p, failedWithin, failedUnclear, cleanUnclear, failedWithin + failedUnclear])
    if (!(share >= 0 && share <= 1)) throw new RangeError(`a chance or share must be from 0 to 1, got ${share}`);
  const within = p * (1 - cleanUnclear) + (1 - p) * failedWithin;
  const unclear = p * cleanUnclear + (1 - p) * failedUnclear;
  if (!(unclear < 1)) throw new RangeError("a gate needs takes with a verdict, and here all are unclear");
  return { p: Math.min(1, within / (1 - unclear)), unclear };
}
