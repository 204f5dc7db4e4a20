import { describe, expect, test } from "vitest";
import { lineThrough } from "../../lib/take/metrics/statistics.js";
import { passOver } from "../../lib/take/state/filter.js";
import { guideOf } from "../../lib/take/state/guide.js";
import { plainScore } from "../take/scores.js";
import { near, printed } from "./published.js";

// Estimation theory for n onsets at equal spacing (computed exactly from covariance matrices for this table): the least-squares slope has
// variance 12 s^2 / (n (n^2 - 1)) under white deviation s, which is the Cramér-Rao bound for normal deviation; 6 (n^2 + 1) c^2 / (5 n (n^2 - 1)) under
// a random-walk clock c, where the endpoints do best with c^2 / (n - 1).
// Nothing is known beforehand of phase and tempo: these priors hold back less than 1e-6 of any variance below.
const PHASE = { mean: 0, sd: 1e5 };
const BIAS = 100;

/** Variance of the drift from the first of n notes in a silence to `beyond` beats after the last, nothing but the n notes being heard. */
function driftVariance(n: number, noise: { clock: number; motor: number }, beyond: number): number {
  const silent = n - 1 + beyond;
  // A silence that starts with the take; its first note lies on its first instant.
  const score = { ...plainScore({ phrases: 1, accompanied: 0, silent, outro: 1 }), audible: [] };
  const late = new Float64Array(score.expected.length).fill(Number.NaN);
  late.fill(0, 0, n);
  const passed = passOver(guideOf(score), late, { ...noise, bias: BIAS, correction: 0.5 }, PHASE);
  return passed.driftVariance[0]!;
}

/** 1e-6 of the value: the flat priors, and rounding of covariances of 1e10 against results of 1 and more (2^-53 x 1e10). */
const close = (found: number, wanted: number): void => near(found, wanted, 1e-6 * wanted + 1e-5);

describe("the smoother with known noise and nothing known beforehand", () => {
  // The drift over h beats is h times the tempo bias when the clock has no noise, so its variance is h^2 times that of the slope.
  test.each([
    [4, 0.2],
    [8, 0.0238095238],
    [16, 0.0029411765],
    [32, 0.000366568915],
  ])("reaches the Cramér-Rao bound of the slope of %i onsets, %f of the deviation's variance", (n, bound) => {
    near(12 / (n * (n ** 2 - 1)), bound, printed(10));
    const s = 15;
    close(driftVariance(n, { clock: 0, motor: s }, 0), (n - 1) ** 2 * bound * s ** 2);
    close(driftVariance(n, { clock: 0, motor: s }, 4), (n + 3) ** 2 * bound * s ** 2);
  });

  test.each([
    [15, 4, 6.708, 3],
    [15, 8, 2.3146, 4],
    [15, 16, 0.8135, 4],
    [25, 8, 3.8576, 4],
  ])("has a standard error of the period for deviation %i ms and %i onsets of %f ms a beat", (s, n, error, digits) => {
    near(Math.sqrt(driftVariance(n, { clock: 0, motor: s }, 0)) / (n - 1), error, printed(digits));
  });

  // Under a random-walk clock without motor noise the drift between two heard notes is known exactly; h beats beyond the last it is h times the
  // bias plus h clock steps, and the bias is known to c^2 / (n - 1), the endpoint rule, which least squares misses by up to a fifth.
  test.each([
    [4, 17 / 50],
    [8, 13 / 84],
    [16, 257 / 3400],
    [32, 205 / 5456],
  ])(
    "reaches the endpoint bound of a random-walk clock with %i onsets, below the %f of least squares",
    (n, leastSquares) => {
      near((6 * (n ** 2 + 1)) / (5 * n * (n ** 2 - 1)), leastSquares, 1e-12);
      const c = 10;
      close(driftVariance(n, { clock: c, motor: 0 }, 0) + 1, 1);
      for (const h of [1, 4]) {
        const bias = (driftVariance(n, { clock: c, motor: 0 }, h) - h * c ** 2) / h ** 2;
        close(bias, c ** 2 / (n - 1));
        expect(bias).toBeLessThan(leastSquares * c ** 2);
      }
    },
  );

  test.each([4, 8, 16, 32])(
    "with both kinds of noise and %i onsets never does worse than the least-squares slope drawn on",
    (n) => {
      const [c, s] = [10, 15];
      // The slope times the beats is one estimate of the drift over the n onsets among all linear ones; the smoother is the best of them. Its error
      // against the true drift, which holds the clock's own steps: weights on deviation, and on the steps less one each.
      const centre = (n - 1) / 2;
      const weight = Array.from({ length: n }, (_, i) => ((i - centre) * 12 * (n - 1)) / (n * (n ** 2 - 1)));
      const deviation = weight.reduce((sum, w) => sum + w ** 2, 0) * s ** 2;
      const steps = weight.slice(1).reduce((sum, _, k) => {
        const share = weight.slice(k + 1).reduce((total, w) => total + w, 0);
        return sum + (share - 1) ** 2 * c ** 2;
      }, 0);
      const found = driftVariance(n, { clock: c, motor: s }, 0);
      expect(found).toBeLessThanOrEqual((deviation + steps) * (1 + 1e-6));
      expect(found).toBeGreaterThan(driftVariance(n, { clock: 0, motor: s }, 0));
    },
  );
});

describe("lineThrough()", () => {
  // The least-squares slope is a weighted sum of the onsets; its weights are what it makes of unit impulses.
  const weights = (n: number): number[] => {
    const x = Array.from({ length: n }, (_, i) => i);
    return x.map(
      (i) =>
        lineThrough(
          x,
          x.map((each) => (each === i ? 1 : 0)),
        ).slope,
    );
  };
  test.each([4, 8, 16, 32])(
    "has the tabled variances of the least-squares slope of %i onsets, under white deviation and a random-walk clock",
    (n) => {
      const weight = weights(n);
      near(
        weight.reduce((sum, w) => sum + w ** 2, 0),
        12 / (n * (n ** 2 - 1)),
        1e-15,
      );
      let walk = 0;
      weight.forEach((a, i) => {
        weight.forEach((b, j) => {
          walk += a * b * Math.min(i, j);
        });
      });
      near(walk, (6 * (n ** 2 + 1)) / (5 * n * (n ** 2 - 1)), 1e-13);
    },
  );

  test("foretells the phase with the tabled variance: at the first and last of 8 onsets .4166667, one beat on .607143, four on 1.464286", () => {
    const n = 8;
    const x = Array.from({ length: n }, (_, i) => i);
    const at = (epoch: number): number =>
      x.reduce((sum, i) => {
        const { slope, intercept } = lineThrough(
          x,
          x.map((each) => (each === i ? 1 : 0)),
        );
        return sum + (intercept + slope * epoch) ** 2;
      }, 0);
    near(at(0), 0.4166667, printed(7));
    near(at(n - 1), 0.4166667, printed(7));
    near(at((n - 1) / 2), 1 / n, 1e-12);
    near(at(n), 0.607143, printed(6));
    near(at(n + 3), 1.464286, printed(6));
  });
});
