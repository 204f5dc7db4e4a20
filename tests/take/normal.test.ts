import fc from "fast-check";
import { errorFunction } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { normalBelow, normalWithin } from "../../lib/take/metrics/normal.js";

const finite = fc.double({ min: -8, max: 8, noNaN: true });

/** Simpson's rule over the density: exact to 1e-12 with these steps. */
function integral(from: number, to: number): number {
  const steps = 2000;
  const h = (to - from) / steps;
  const density = (z: number): number => Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI);
  let sum = density(from) + density(to);
  for (let i = 1; i < steps; i++) sum += (i % 2 === 1 ? 4 : 2) * density(from + i * h);
  return (sum * h) / 3;
}

describe("normalBelow()", () => {
  test("agrees with the integral of the density to 1e-7, the error its series states", () => {
    fc.assert(
      fc.property(finite, (z) => {
        expect(Math.abs(normalBelow(z) - (0.5 + integral(0, z)))).toBeLessThanOrEqual(1e-7);
      }),
    );
  });

  test("agrees with simple-statistics to the errors of both (1e-7 and 1.2e-7)", () => {
    fc.assert(
      fc.property(finite, (z) => {
        const theirs = (1 + errorFunction(z / Math.SQRT2)) / 2;
        expect(Math.abs(normalBelow(z) - theirs)).toBeLessThanOrEqual(1e-7 + 1.2e-7 / 2);
      }),
    );
  });

  test("is symmetric and grows", () => {
    fc.assert(
      fc.property(finite, finite, (a, b) => {
        // Exactly so but at 0 itself, where both halves carry the error of the series.
        expect(Math.abs(normalBelow(a) + normalBelow(-a) - 1)).toBeLessThanOrEqual(a === 0 ? 2e-7 : 1e-15);
        if (a < b) expect(normalBelow(b)).toBeGreaterThanOrEqual(normalBelow(a) - 1e-7);
      }),
    );
  });

  test("holds 1 - 2 Φ(-1.959964) = 95 % and 90 % within 1.644854 (handbook quantiles)", () => {
    expect(Math.abs(normalWithin(1.959964, 0, 1) - 0.95)).toBeLessThanOrEqual(3e-7);
    expect(Math.abs(normalWithin(1.644854, 0, 1) - 0.9)).toBeLessThanOrEqual(3e-7);
  });
});

describe("normalWithin()", () => {
  test("is a probability, the same for a mean on either side, and certain when there is no deviation", () => {
    const sd = fc.double({ min: 0, max: 100, noNaN: true });
    const limit = fc.double({ min: 0, max: 500, noNaN: true });
    fc.assert(
      fc.property(limit, fc.double({ min: -500, max: 500, noNaN: true }), sd, (most, mean, deviation) => {
        const inside = normalWithin(most, mean, deviation);
        expect(inside >= 0 && inside <= 1).toBe(true);
        expect(Math.abs(inside - normalWithin(most, -mean, deviation))).toBeLessThanOrEqual(2e-7);
        expect(normalWithin(most, mean, 0)).toBe(Math.abs(mean) <= most ? 1 : 0);
      }),
    );
  });
});
