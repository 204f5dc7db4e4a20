import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hitRates, matchHits } from "./hitRates.js";

/** The size of a maximum matching by augmenting paths (Kuhn's algorithm), for any graph. */
function maximumMatching(reference: readonly number[], estimated: readonly number[], window: number): number {
  const owner = new Map<number, number>();
  const place = (r: number, tried: Set<number>): boolean => {
    for (let e = 0; e < estimated.length; e++) {
      if (tried.has(e) || Math.abs(estimated[e]! - reference[r]!) > window) continue;
      tried.add(e);
      const before = owner.get(e);
      if (before === undefined || place(before, tried)) {
        owner.set(e, r);
        return true;
      }
    }
    return false;
  };
  return reference.filter((_, r) => place(r, new Set())).length;
}

const times = fc.array(
  fc.oneof(
    fc.double({ min: 0, max: 3, noNaN: true }),
    fc.integer({ min: 0, max: 30 }).map((n) => n / 10),
  ),
  {
    maxLength: 25,
  },
);
const window = fc.oneof(fc.constant(0), fc.constant(0.1), fc.double({ min: 0, max: 1, noNaN: true }));

describe("matchHits()", () => {
  test("finds as many pairs as any matching can, each within the window, each time once", () => {
    fc.assert(
      fc.property(times, times, window, (reference, estimated, most) => {
        const pairs = matchHits(reference, estimated, most);
        expect(pairs.length).toBe(maximumMatching(reference, estimated, most));
        expect(new Set(pairs.map(([r]) => r)).size).toBe(pairs.length);
        expect(new Set(pairs.map(([, e]) => e)).size).toBe(pairs.length);
        for (const [r, e] of pairs) expect(Math.abs(estimated[e]! - reference[r]!)).toBeLessThanOrEqual(most);
      }),
      { numRuns: 300 },
    );
  });

  test("beats pairing each time with its nearest: 1.0 and 1.1 with 1.05 and 0.92, window 0.09", () => {
    expect(matchHits([1, 1.1], [1.05, 0.92], 0.09)).toEqual([
      [0, 1],
      [1, 0],
    ]);
  });

  test("is empty when a list is", () => {
    expect(matchHits([], [1], 1)).toEqual([]);
    expect(matchHits([1], [], 1)).toEqual([]);
  });

  test("refuses a time that is not finite, and a window below 0 or not a number", () => {
    expect(() => matchHits([Number.NaN], [1], 1)).toThrow(RangeError);
    expect(() => matchHits([1], [Number.POSITIVE_INFINITY], 1)).toThrow(RangeError);
    expect(() => matchHits([1], [1], -1)).toThrow(RangeError);
    expect(() => matchHits([1], [1], Number.NaN)).toThrow(RangeError);
  });
});

describe("hitRates()", () => {
  test("is 0 throughout when there is no hit, also for empty lists", () => {
    expect(hitRates(0, { reference: 0, estimated: 0 })).toEqual({ precision: 0, recall: 0, f: 0 });
    expect(hitRates(0, { reference: 3, estimated: 0 })).toEqual({ precision: 0, recall: 0, f: 0 });
  });

  test("has F between precision and recall, and 1 when all are hits", () => {
    fc.assert(
      fc.property(fc.nat(50), fc.nat(50), fc.nat(50), (hits, more, others) => {
        if (hits === 0) return;
        const { precision, recall, f } = hitRates(hits, { reference: hits + more, estimated: hits + others });
        expect(f).toBeGreaterThanOrEqual(Math.min(precision, recall) - 1e-12);
        expect(f).toBeLessThanOrEqual(Math.max(precision, recall) + 1e-12);
      }),
    );
    expect(hitRates(7, { reference: 7, estimated: 7 })).toEqual({ precision: 1, recall: 1, f: 1 });
  });

  test("refuses more hits than times", () => {
    expect(() => hitRates(3, { reference: 2, estimated: 5 })).toThrow(RangeError);
    expect(() => hitRates(-1, { reference: 2, estimated: 5 })).toThrow(RangeError);
  });
});
