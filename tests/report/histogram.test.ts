import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mergeCounts } from "../../lib/progress/summary/driftCells.js";
import { quartilesOf } from "../../lib/report/histogram.js";

function quartiles(values: readonly number[], step = 1): ReturnType<typeof quartilesOf> {
  // One after the other, so that counts are put together in any order of their values.
  const counts = values.reduce<readonly number[]>(
    (all, value) => mergeCounts(all, [Math.round(value / step) + 0, 1]),
    [],
  );
  return quartilesOf(counts, step);
}

describe("quartilesOf()", () => {
  // By hand from the definition: the quantile of share p of n values in order lies at place 1 + (n - 1) p.
  test.each([
    [[1, 2, 3, 4], { low: 1.75, median: 2.5, high: 3.25 }],
    [[10], { low: 10, median: 10, high: 10 }],
    [[-30, 40], { low: -12.5, median: 5, high: 22.5 }],
    [[5, -5, 0, 0, 0], { low: 0, median: 0, high: 0 }],
  ])("gives median and quartiles of %j", (values, expected) => {
    expect(quartiles(values)).toEqual(expected);
  });

  test("is undefined for nothing, and has no negative zero", () => {
    expect(quartiles([])).toBeUndefined();
    expect(Object.is(quartiles([-0.2])!.median, 0)).toBe(true);
  });

  test("agrees with the quantiles of the rounded values in order", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -900, max: 900 }), { minLength: 1, maxLength: 60 }), (tenths) => {
        const inOrder = tenths.map((value) => value / 10).sort((a, b) => a - b);
        const at = (share: number): number => {
          const place = share * (inOrder.length - 1);
          const below = Math.floor(place);
          return inOrder[below]! + (place - below) * ((inOrder[below + 1] ?? inOrder[below]!) - inOrder[below]!);
        };
        const found = quartiles(inOrder, 0.1)!;
        // Rounded to hundredths.
        expect(Math.abs(found.median - at(0.5))).toBeLessThanOrEqual(0.005 + 1e-9);
        expect(Math.abs(found.low - at(0.25))).toBeLessThanOrEqual(0.005 + 1e-9);
        expect(Math.abs(found.high - at(0.75))).toBeLessThanOrEqual(0.005 + 1e-9);
      }),
    );
  });
});
