import { MOST_SKEW } from "./candidateStarts.js";
import type { WindowLag } from "./windowLags.js";

/** Seconds a lag may lie off the line that most of them lie on: our choice, the differences of sound paths between loudspeaker and phone. */
const NEAR = 0.4e-3;
/** A peak this high is not chance: of 1e4 places in a window, one in 1e5 windows has one (normal distribution). */
const HIGH = 6.2;
/** Least standard error of the lag of a window, seconds: a hundredth of a sample. */
const LEAST_ERROR = 0.5e-6;

/** The straight line through the lags: lag = start + skew * seconds of the backing. */
export interface LagLine {
  /** Seconds. */
  readonly start: number;
  /** A ratio: 1e-6 is one part per million. */
  readonly skew: number;
  /** Standard errors of both. */
  readonly startError: number;
  readonly skewError: number;
  /** How far the windows used lie off the line, seconds (standard deviation). */
  readonly standardError: number;
  /** Windows on the line, and windows there were. */
  readonly used: number;
  readonly tried: number;
  /** Sum of the squared heights of the windows on the line. */
  readonly evidence: number;
}

/**
 * The line on which most windows have a high peak (every pair of peaks is tried, as in random sample consensus), then least squares through
 * those, with their error from the line for the standard errors. `undefined` when fewer than two windows have one on a line that clocks can have.
 */
export function fitLagLine(lags: readonly WindowLag[]): LagLine | undefined {
  const high = lags.filter(({ height }) => height >= HIGH);
  let best: readonly WindowLag[] = [];
  for (let i = 0; i < high.length; i++) {
    for (let j = i + 1; j < high.length; j++) {
      const [a, b] = [high[i]!, high[j]!];
      if (a.at === b.at) continue;
      const skew = (b.lag - a.lag) / (b.at - a.at);
      if (Math.abs(skew) > MOST_SKEW) continue;
      const on = high.filter(({ at, lag }) => Math.abs(lag - a.lag - skew * (at - a.at)) < NEAR);
      const windows = highestOfEach(on);
      const more = windows.length - best.length || evidenceOf(windows) - evidenceOf(best);
      if (more > 0) best = windows;
    }
  }
  if (best.length < 2) return undefined;
  let line = leastSquares(best);
  for (let round = 0; round < 5; round++) {
    const off = best.map(({ at, lag }) => Math.abs(lag - line.start - line.skew * at)).sort((a, b) => a - b);
    // 1.4826 times the median absolute deviation estimates the standard deviation of a normal distribution.
    const limit = Math.max(LEAST_ERROR * 4, 4 * 1.4826 * off[off.length >> 1]!);
    const kept = best.filter(({ at, lag }) => Math.abs(lag - line.start - line.skew * at) <= limit);
    if (kept.length === best.length || kept.length < Math.max(2, best.length / 2)) break;
    best = kept;
    line = leastSquares(best);
  }
  return { ...line, tried: windowsOf(lags) };
}

/** How many windows these lags are of. */
export function windowsOf(lags: readonly WindowLag[]): number {
  return new Set(lags.map(({ at }) => at)).size;
}

/** Sum of the squared heights. */
function evidenceOf(lags: readonly WindowLag[]): number {
  return lags.reduce((sum, { height }) => sum + height ** 2, 0);
}

/** The highest lag of each window. */
function highestOfEach(lags: readonly WindowLag[]): readonly WindowLag[] {
  const highest = new Map<number, WindowLag>();
  for (const lag of lags) if (lag.height > (highest.get(lag.at)?.height ?? 0)) highest.set(lag.at, lag);
  return [...highest.values()];
}

/** Whether a peak of a window is high, and its lag is on the line. */
export function isOn({ start, skew }: Pick<LagLine, "start" | "skew">, { at, lag, height }: WindowLag): boolean {
  return height >= HIGH && Math.abs(lag - start - skew * at) < NEAR;
}

/** Weighted by the squares of the heights: the variance of a lag falls with the square of what stands out (Knapp & Carter 1976). */
function leastSquares(lags: readonly WindowLag[]): Omit<LagLine, "tried"> {
  const count = lags.length;
  const total = evidenceOf(lags);
  const weighted = (of: (lag: WindowLag) => number): number =>
    lags.reduce((sum, lag) => sum + (lag.height ** 2 / total) * of(lag), 0);
  const middle = weighted(({ at }) => at);
  const mean = weighted(({ lag }) => lag);
  const squares = weighted(({ at }) => (at - middle) ** 2);
  const skew = weighted(({ at, lag }) => (at - middle) * (lag - mean)) / squares;
  const start = mean - skew * middle;
  const rest = weighted(({ at, lag }) => (lag - start - skew * at) ** 2);
  // With two windows the line goes through both, and nothing is known of its error but what sound paths can do.
  const error = Math.max(LEAST_ERROR, count > 2 ? Math.sqrt((rest * count) / (count - 2)) : NEAR);
  // What weights make of a sum of independent errors: 1 / (sum of squared weights) windows count.
  const counting = 1 / weighted(({ height }) => height ** 2 / total);
  const middleError = error / Math.sqrt(counting);
  const skewError = middleError / Math.sqrt(squares);
  return {
    start,
    skew,
    skewError,
    startError: Math.hypot(middleError, skewError * middle),
    standardError: error,
    used: count,
    evidence: total,
  };
}
