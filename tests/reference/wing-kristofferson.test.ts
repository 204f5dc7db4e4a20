import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { lineThrough, standardDeviation } from "../../lib/take/metrics/statistics.js";
import { autocovariance, detrended } from "./autocorrelation.js";
import { near, printed } from "./published.js";
import { type ClockAndMotor, wingKristofferson } from "./wingKristofferson.js";

// Worked examples computed for this table from the moment formulas of Wing & Kristofferson 1973 (formulas from memory); autocovariances
// divided by n, mean removed.
const LEGAL = [510, 492, 496, 484, 502, 494, 512, 496, 510, 504];
const ILLEGAL = [500, 510, 492, 506, 498, 503, 495, 508, 489, 499];
const moments = (values: ArrayLike<number>): number[] => [autocovariance(values, 0), autocovariance(values, 1)];

describe("the clock and motor split of Wing & Kristofferson 1973", () => {
  test("the legal series splits into a clock of 6.752777 and a motor part of 3.847077 ms, lag-1 -0.196808510638", () => {
    const [whole, next] = moments(LEGAL);
    near(whole!, 75.2, 1e-12);
    near(next!, -14.8, 1e-12);
    const split = wingKristofferson(LEGAL) as ClockAndMotor;
    near(split.clockMs, 6.752777, printed(6));
    near(split.motorMs, 3.847077, printed(6));
    near(split.lagOne, -0.196808510638, printed(12));
  });

  test("the illegal series (lag-1 -0.655660377, clock variance -13.2) is reported as not decomposable", () => {
    const [whole, next] = moments(ILLEGAL);
    near(whole!, 42.4, 1e-12);
    near(next!, -27.8, 1e-12);
    near(next! / whole!, -0.655660377, printed(9));
    near(whole! + 2 * next!, -13.2, 1e-12);
    expect(wingKristofferson(ILLEGAL)).toEqual({ unmeasured: expect.stringContaining("-0.66") });
    near(standardDeviation(ILLEGAL), 6.863753, printed(6));
  });

  test("the illegal series has a trend of -0.630303 ms a tap; detrended its moments are 39.122424 and -31.714182, and stay illegal", () => {
    near(
      lineThrough(
        ILLEGAL.map((_, i) => i),
        ILLEGAL,
      ).slope,
      -0.630303,
      printed(6),
    );
    const [whole, next] = moments(detrended(ILLEGAL));
    near(whole!, 39.122424, printed(6));
    near(next!, -31.714182, printed(6));
    expect(wingKristofferson(ILLEGAL, { around: "line" })).toHaveProperty("unmeasured");
  });

  test("a long series gives back clock 20 and motor 8 ms: autocovariances 528 and -64 within their sampling error", () => {
    const chance = random("clock and motor");
    const n = 200_000;
    let before = 8 * chance.normal();
    const intervals = Array.from({ length: n }, () => {
      const after = 8 * chance.normal();
      const interval = 500 + 20 * chance.normal() + after - before;
      before = after;
      return interval;
    });
    // Bartlett's formula for a moving average of order 1: n var g(0) = 2 (g0^2 + 2 g1^2), n var g(1) = g0^2 + 3 g1^2.
    const [whole, next] = moments(intervals);
    near(whole!, 528, 4 * Math.sqrt((2 * (528 ** 2 + 2 * 64 ** 2)) / n));
    near(next!, -64, 4 * Math.sqrt((528 ** 2 + 3 * 64 ** 2) / n));
  });

  // Finite-sample means at true (g0, g1) = (600, -100): computed from the covariance matrix of the series, exactly, for this test and the table.
  test.each([
    [12, 565.28, -122.34, 527.78, -147.62],
    [30, 586.44, -109.56, 572.44, -121.58],
  ])(
    "with %i intervals short silences overstate the motor part on average: %f and %f, detrended %f and %f",
    (n, whole, next, wholeLine, nextLine) => {
      // E[g(k)] = trace(P S_k P V) / n, with P the projection that takes out the mean (or the line), S_k the lag-k shift, V the true covariance.
      const index = Array.from({ length: n }, (_, i) => i);
      const covariance = (i: number, j: number): number => (i === j ? 600 : Math.abs(i - j) === 1 ? -100 : 0);
      const centre = (n - 1) / 2;
      const across = index.reduce((sum, i) => sum + (i - centre) ** 2, 0);
      const expected = (lag: number, line: boolean): number => {
        const project = (i: number, j: number): number =>
          (i === j ? 1 : 0) - 1 / n - (line ? ((i - centre) * (j - centre)) / across : 0);
        let sum = 0;
        for (let i = 0; i + lag < n; i++) {
          for (const j of index) for (const k of index) sum += project(i, j) * covariance(j, k) * project(k, i + lag);
        }
        return sum / n;
      };
      near(expected(0, false), whole, printed(2));
      near(expected(1, false), next, printed(2));
      near(expected(0, true), wholeLine, printed(2));
      near(expected(1, true), nextLine, printed(2));
      // And the library's own moments have those means, over 4,000 series: the standard error of a mean is measured with it.
      const chance = random(`short silences of ${n}`);
      const runs = 4000;
      const found: number[][] = [[], [], [], []];
      for (let run = 0; run < runs; run++) {
        let before = 10 * chance.normal();
        const series = index.map(() => {
          const after = 10 * chance.normal();
          const interval = 20 * chance.normal() + after - before;
          before = after;
          return interval;
        });
        [...moments(series), ...moments(detrended(series))].forEach((value, k) => {
          found[k]!.push(value);
        });
      }
      [whole, next, wholeLine, nextLine].forEach((wanted, k) => {
        const values = found[k]!;
        near(
          values.reduce((sum, value) => sum + value, 0) / runs,
          wanted,
          (4 * standardDeviation(values)) / Math.sqrt(runs),
        );
      });
    },
  );
});
