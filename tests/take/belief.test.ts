import { describe, expect, test } from "vitest";
import { mixtureOf, probabilityWithin, rivalOf } from "../../lib/take/metrics/drift.js";

const PARTS = [
  { weight: 3, mean: 10, sd: 8 },
  { weight: 1, mean: -60, sd: 12 },
];
const mixture = mixtureOf(PARTS);

/** Integral of a function times the density of the mixture, by Simpson's rule from -300 to 300. */
function over(value: (x: number) => number): number {
  const density = (x: number): number =>
    PARTS.reduce((sum, { weight, mean, sd }) => {
      return sum + ((weight / 4) * Math.exp(-(((x - mean) / sd) ** 2) / 2)) / (sd * Math.sqrt(2 * Math.PI));
    }, 0);
  const steps = 24_000;
  const h = 600 / steps;
  let sum = 0;
  for (let k = 0; k <= steps; k++) {
    const x = -300 + k * h;
    sum += (k === 0 || k === steps ? 1 : k % 2 === 1 ? 4 : 2) * value(x) * density(x);
  }
  return (sum * h) / 3;
}

describe("a belief of several parts", () => {
  test("has the mean and the standard deviation of its density", () => {
    const mean = over((x) => x);
    expect(mixture.mean).toBeCloseTo(mean, 6);
    expect(mixture.sd).toBeCloseTo(Math.sqrt(over((x) => (x - mean) ** 2)), 6);
    expect(mixture.parts.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
  });

  test.each([5, 20, 60, 100])("lies within %i ms of 0 with the probability its density gives", (limit) => {
    // The steps of the rule that hold the limit are off by half of themselves; the normal function by 1e-7.
    const step = 600 / 24_000;
    const peak = 3 / 4 / (8 * Math.sqrt(2 * Math.PI)) + 1 / 4 / (12 * Math.sqrt(2 * Math.PI));
    expect(Math.abs(probabilityWithin(mixture, limit) - over((x) => (Math.abs(x) <= limit ? 1 : 0)))).toBeLessThan(
      2 * step * peak + 1e-6,
    );
  });

  test("has a rival when parts further off than three standard deviations hold a sixth of the weight or more", () => {
    const at = (weight: number, mean: number): number | undefined =>
      rivalOf(
        mixtureOf([
          { weight: 1, mean: 0, sd: 10 },
          { weight, mean, sd: 10 },
        ]),
      );
    // One in five against the likeliest: 0.2 / 1.2.
    expect(at(0.21, 50)).toBe(50);
    expect(at(0.19, 50)).toBeUndefined();
    expect(at(1, 29)).toBeUndefined();
    expect(at(1, -31)).toBe(-31);
  });
});
