/** A forecast that was made before the take, and what came of it. */
export interface Outcome {
  /** Chance of a clean take, 0 to 1. */
  readonly chance: number;
  readonly clean: boolean;
}

/** Forecasts of about the same chance, and how they came out. */
export interface Reliability {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** Mean chance forecast and share of clean takes; 0 when there were none. */
  readonly forecast: number;
  readonly clean: number;
  /** Standard error of that share, were the forecasts true: the root of the sum of p (1 - p), over the count. */
  readonly samplingError: number;
}

/**
 * Mean squared difference between the chance forecast and what came (1 clean, 0 not): 0 at best, 0.25 for always saying one half.
 *
 * Brier 1950, "Verification of forecasts expressed in terms of probability", Mon. Weather Rev. 78, 1-3, in its form for two outcomes
 * (from memory). Throws `RangeError` for no outcomes.
 *
 * @example brierScore([{ chance: 0.9, clean: true }, { chance: 0.2, clean: false }]) // 0.025
 */
export function brierScore(outcomes: readonly Outcome[]): number {
  if (outcomes.length === 0) throw new RangeError("a Brier score needs one outcome at least");
  return outcomes.reduce((sum, { chance, clean }) => sum + (chance - (clean ? 1 : 0)) ** 2, 0) / outcomes.length;
}

/** Forecasts sorted into `bins` ranges of equal width, and how often each came true; a forecast on an edge belongs above it. */
export function reliability(outcomes: readonly Outcome[], bins = 10): readonly Reliability[] {
  if (!(Number.isInteger(bins) && bins >= 1)) throw new RangeError(`reliability needs 1 range at least, got ${bins}`);
  return Array.from({ length: bins }, (_, i) => {
    // Decimals such as 0.3 * 10 come out just below a whole number; rounding keeps them in their own range.
    const inside = outcomes.filter(
      ({ chance }) => Math.min(bins - 1, Math.floor(Number((chance * bins).toFixed(9)))) === i,
    );
    const count = inside.length;
    const mean = (value: (each: Outcome) => number): number =>
      count === 0 ? 0 : inside.reduce((sum, each) => sum + value(each), 0) / count;
    return {
      from: i / bins,
      to: (i + 1) / bins,
      count,
      forecast: mean(({ chance }) => chance),
      clean: mean(({ clean }) => (clean ? 1 : 0)),
      samplingError: count === 0 ? 0 : Math.sqrt(mean(({ chance }) => chance * (1 - chance)) / count),
    };
  });
}
