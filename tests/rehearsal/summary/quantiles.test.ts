import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { quantileOf, quantilesOf } from "../../../lib/rehearsal/summary/quantiles.js";
import { type Counts, count } from "../../../lib/rehearsal/summary/tally.js";

const countsOf = (values: readonly number[]): Counts => {
  const counts: Counts = new Map();
  for (const value of values) count(counts, value);
  return counts;
};

describe("quantileOf()", () => {
  test("is the order statistic ⌈share × n⌉ of all values, exactly, whatever is equal and however they are ordered", () => {
    const values = fc.array(fc.nat(6), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(values, fc.integer({ min: 1, max: 100 }), (all, percent) => {
        const sorted = [...all].sort((a, b) => a - b);
        // Whole numbers, so that no rounding decides.
        const place = Math.ceil((percent * all.length) / 100);
        expect(quantileOf(countsOf(all), all.length, percent / 100)).toBe(sorted[place - 1]);
        expect(quantileOf(countsOf([...all].reverse()), all.length, percent / 100)).toBe(sorted[place - 1]);
      }),
    );
  });

  test("of one to five students, by hand", () => {
    const medians = [[7], [3, 9], [1, 5, 5], [2, 2, 8, 9], [1, 2, 3, 4, 100]].map((each) =>
      quantileOf(countsOf(each), each.length, 0.5),
    );
    expect(medians).toEqual([7, 3, 5, 2, 3]);
  });

  test("counts who never came as later than anybody: not reached is not known", () => {
    const counts = countsOf([10, 20, 30]);
    expect(quantileOf(counts, 6, 0.5)).toBe(30);
    expect(quantileOf(counts, 7, 0.5)).toBeUndefined();
    expect(quantileOf(new Map(), 0, 0.5)).toBeUndefined();
    expect(quantilesOf(counts, 10, 7)).toEqual({ low: 1.4 });
  });
});
