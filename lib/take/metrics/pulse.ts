import { firstAtOrAfter } from "../state/guide.js";
import { normalBelow } from "./normal.js";

/** Whether onsets follow the subdivisions of open bars at all. */
export interface PulseTest {
  /** Tempo of the onsets against the score's, per cent, positive slower; the best of those tried. */
  readonly percent: number;
  /** How well they lie on the grid at that tempo: the mean cosine of their phases, 1 when all are on it. */
  readonly agreement: number;
  /** Chance that onsets placed at random would lie as close to some tempo's subdivisions. */
  readonly p: number;
}

// Tempi tried either way of the score's (our choice: two standard deviations of a beginner's tempo bias; wider, and few notes show no pulse).
const WIDEST_PERCENT = 6;
// Tries to the width of a peak: the largest value found is then within 5 % of the true largest.
const TRIES = 4;

/**
 * The V test of onsets against a grid of subdivisions, over a range of tempi: a periodogram of point events whose phase at the start is known.
 *
 * At each tempo the onset times are mapped to places on the grid (piecewise linear between its points, so that a swung grid is as good as an
 * even one); u = sqrt(2/n) times the sum of the cosines of their phases is normal under chance (V test: Mardia & Jupp 2000, from memory). p of the largest u by
 * Rice's formula for the maximum of a smooth process, 1 - Φ(u) + range of tempo x places / sqrt(3) x exp(-u^2 / 2) (Davies 1977, Biometrika 64,
 * 247-254, from memory; the false alarms are measured in `npm run bench -- open-bars`).
 *
 * @param onsets seconds, the player's offset taken off; at least one
 * @param grid seconds, ascending, at least two; its first point is where the phase is known
 */
export function pulseTest(onsets: readonly number[], grid: readonly number[]): PulseTest {
  const from = grid[0]!;
  const places = grid.length - 1;
  const step = 100 / places / TRIES;
  let best = { percent: 0, agreement: -1 };
  for (let percent = -WIDEST_PERCENT; percent <= WIDEST_PERCENT + 1e-9; percent += step) {
    let sum = 0;
    for (const at of onsets) sum += Math.cos(2 * Math.PI * placeOn(grid, from + (at - from) / (1 + percent / 100)));
    if (sum / onsets.length > best.agreement) best = { percent, agreement: sum / onsets.length };
  }
  const u = Math.sqrt(2 * onsets.length) * best.agreement;
  const crossings = (((2 * WIDEST_PERCENT) / 100) * places) / Math.sqrt(3);
  return { ...best, p: Math.min(1, 1 - normalBelow(u) + crossings * Math.exp(-(u ** 2) / 2)) };
}

function placeOn(grid: readonly number[], at: number): number {
  const low = Math.min(Math.max(0, firstAtOrAfter(grid, at) - 1), grid.length - 2);
  return low + (at - grid[low]!) / (grid[low + 1]! - grid[low]!);
}
