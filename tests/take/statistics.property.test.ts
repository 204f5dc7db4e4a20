import fc from "fast-check";
import * as theirs from "simple-statistics";
import { describe, expect, test } from "vitest";
import { lineThrough, mean, median, standardDeviation } from "../../lib/take/metrics/statistics.js";
import { autocovariance, detrended, lagOneAutocorrelation } from "../reference/autocorrelation.js";

const value = fc.double({ min: -1000, max: 1000, noNaN: true });
const values = fc.array(value, { minLength: 2, maxLength: 40 });
const close = (found: number, wanted: number, scale: number): void => {
  // Forty sums and squares of numbers up to `scale`: a few hundred roundings of 2^-53 each.
  expect(Math.abs(found - wanted), `${found} for ${wanted}`).toBeLessThanOrEqual(1e-12 * Math.max(1, scale));
};

describe("mean(), standardDeviation() and lineThrough()", () => {
  test("agree with simple-statistics", () => {
    fc.assert(
      fc.property(values, (list) => {
        close(mean(list), theirs.mean(list), 1000);
        close(standardDeviation(list) ** 2, theirs.sampleVariance(list), 1e6);
        const { m, b } = theirs.linearRegression(list.map((y, x) => [x, y]));
        const line = lineThrough(
          list.map((_, x) => x),
          list,
        );
        close(line.slope, m, 1e5);
        close(line.intercept, b, 1e6);
      }),
    );
  });

  test("a shift moves the mean by itself and leaves deviation and slope, even far from 0", () => {
    fc.assert(
      fc.property(values, fc.integer({ min: -1e9, max: 1e9 }), (list, shift) => {
        // Sixteenths below 1000 with 1e9 added are still exact.
        const exact = list.map((each) => Math.round(each * 16) / 16);
        const moved = exact.map((each) => each + shift);
        // The centre of n values near 1e9 is off by 2^-53 of them.
        expect(Math.abs(mean(moved) - shift - mean(exact))).toBeLessThanOrEqual(2e9 * 2 ** -53 + 1e-9);
        expect(Math.abs(standardDeviation(moved) - standardDeviation(exact))).toBeLessThanOrEqual(1e-6);
      }),
    );
  });

  test("median() is that of simple-statistics, in whatever order the values come, and not a number of none", () => {
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 40 }), (list) => {
        close(median(list), theirs.median(list), 1000);
        expect(median([...list].reverse())).toBe(median(list));
      }),
    );
    expect(median([])).toBeNaN();
  });

  test("refuse too few values, lists that differ in length, and points above one another", () => {
    expect(() => mean([])).toThrow(RangeError);
    expect(() => standardDeviation([1])).toThrow(RangeError);
    expect(() => lineThrough([1, 2], [1])).toThrow(RangeError);
    expect(() => lineThrough([1, 1], [1, 2])).toThrow(RangeError);
    expect(() => lagOneAutocorrelation([1])).toThrow(RangeError);
    expect(() => autocovariance([1, 2], 2)).toThrow(RangeError);
  });
});

describe("lagOneAutocorrelation()", () => {
  test("lies between -1 and 1, and is unmeasured when all values are the same", () => {
    // Millionths: the square of their least difference is still a number above 0.
    const same = fc.tuple(value, fc.integer({ min: 2, max: 30 })).map(([each, n]) => Array<number>(n).fill(each));
    const millionths = values.map((list) => list.map((each) => Math.round(each * 1e6) / 1e6));
    fc.assert(
      fc.property(fc.oneof(millionths, same), (list) => {
        const found = lagOneAutocorrelation(list);
        if (typeof found === "number") expect(Math.abs(found)).toBeLessThanOrEqual(1 + 1e-12);
        else expect(new Set(list.map((each) => each + 0)).size).toBe(1);
      }),
    );
    expect(lagOneAutocorrelation([3, 3, 3])).toEqual({ unmeasured: "all values are the same" });
  });
});

describe("detrended()", () => {
  test("takes out any straight line", () => {
    fc.assert(
      fc.property(values, value, value, (list, slope, intercept) => {
        const plain = detrended(list);
        detrended(list.map((each, i) => each + intercept + slope * i)).forEach((each, i) => {
          close(each, plain[i]!, 1e6);
        });
      }),
    );
  });
});
