import { describe, expect, test } from "vitest";
import { findMode, fitAround } from "../../lib/take/state/fit.js";
import { guideOf } from "../../lib/take/state/guide.js";
import { type NoisePoint, PRIOR, pointAtLevel } from "../../lib/take/state/noise.js";
import { plainScore } from "./scores.js";

const score = plainScore({ phrases: 1 });
const nothing = new Float64Array(score.expected.length).fill(Number.NaN);
const guide = guideOf(score);
const options = { prior: { mean: 0, sd: 100 }, floorMs: 0, start: pointAtLevel(30) };
const mode = findMode(guide, nothing, { ...options, rounds: 20 });
const fit = fitAround(guide, nothing, mode, options);
/** The logarithms a noise stands for: level, ratio, bias for each ms of clock. */
const logs = fit.points.map(({ noise: { clock, motor, bias } }) => {
  // What rounding onset times to a millisecond adds to the motor part (variance 1 / 12) is no part of the player.
  const own = Math.sqrt(motor ** 2 - 1 / 12);
  return [Math.log(clock * own) / 2, Math.log(clock / own), Math.log(bias / clock)];
});
const expectation = (value: (log: readonly number[]) => number): number =>
  fit.points.reduce((sum, { weight }, k) => sum + weight * value(logs[k]!), 0);

describe("the star of points of fitAround(), with nothing heard, where the posterior is exactly the normal prior", () => {
  test("has its mode at the prior's medians", () => {
    const medians: NoisePoint = [
      Math.log(PRIOR.motor) + Math.log(PRIOR.clockToMotor) / 2,
      Math.log(PRIOR.clockToMotor),
      Math.log(PRIOR.biasPerClock),
    ];
    // Newton's last step was shorter than 0.02, on a parabola: far inside its error.
    fit.mode.forEach((value, axis) => {
      expect(Math.abs(value - medians[axis]!)).toBeLessThan(1e-6);
    });
  });

  test("has weights that add up to 1: 1/4 at the mode and 1/8 at each of six points", () => {
    const weights = fit.points.map(({ weight }) => weight);
    expect(weights).toHaveLength(7);
    expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 12);
    for (const [k, weight] of weights.entries())
      expect(Math.abs(weight - (k === 0 ? 1 / 4 : 1 / 8))).toBeLessThan(1e-6);
  });

  test("has the moments of the prior up to the third: mean, covariance, skewness 0", () => {
    // level = log motor + ratio / 2 with motor and ratio independent: it varies with both, and with the ratio by half the ratio's variance.
    const ratio = PRIOR.clockSd ** 2;
    const covariance = [
      [PRIOR.motorSd ** 2 + ratio / 4, ratio / 2, 0],
      [ratio / 2, ratio, 0],
      [0, 0, PRIOR.biasSd ** 2],
    ];
    for (const i of [0, 1, 2]) {
      const away =
        (axis: number) =>
        (log: readonly number[]): number =>
          log[axis]! - fit.mode[axis]!;
      expect(Math.abs(expectation(away(i)))).toBeLessThan(1e-6);
      for (const j of [0, 1, 2]) {
        expect(Math.abs(expectation((log) => away(i)(log) * away(j)(log)) - covariance[i]![j]!)).toBeLessThan(1e-5);
        for (const k of [0, 1, 2]) {
          expect(Math.abs(expectation((log) => away(i)(log) * away(j)(log) * away(k)(log)))).toBeLessThan(1e-5);
        }
      }
    }
  });

  test("has the standard deviation of the prior", () => {
    const wanted = [Math.hypot(PRIOR.motorSd, PRIOR.clockSd / 2), PRIOR.clockSd, PRIOR.biasSd];
    fit.sd.forEach((value, axis) => {
      expect(Math.abs(value / wanted[axis]! - 1)).toBeLessThan(1e-6);
    });
  });
});
