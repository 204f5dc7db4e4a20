import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { wingKristofferson } from "./wingKristofferson.js";

const interval = fc.double({ min: 100, max: 2000, noNaN: true });
const intervals = fc.array(interval, { maxLength: 60 });

describe("wingKristofferson()", () => {
  test("either gives two parts that are 0 or more and a lag-1 from -1/2 to 0, or says why not", () => {
    fc.assert(
      fc.property(intervals, fc.constantFrom("mean" as const, "line" as const), (list, around) => {
        const split = wingKristofferson(list, { around });
        if ("unmeasured" in split) {
          expect(split.unmeasured).toMatch(/\S/);
          return;
        }
        expect(split.clockMs).toBeGreaterThanOrEqual(0);
        expect(split.motorMs).toBeGreaterThanOrEqual(0);
        expect(split.lagOne).toBeLessThanOrEqual(0);
        expect(split.lagOne).toBeGreaterThanOrEqual(-0.5 - 1e-12);
      }),
      { numRuns: 300 },
    );
  });

  test("the parts make up the variance: clock^2 + 2 motor^2 is the variance (divided by n)", () => {
    fc.assert(
      fc.property(fc.array(interval, { minLength: 8, maxLength: 60 }), (list) => {
        const split = wingKristofferson(list);
        if ("unmeasured" in split) return;
        const mean = list.reduce((sum, each) => sum + each, 0) / list.length;
        const variance = list.reduce((sum, each) => sum + (each - mean) ** 2, 0) / list.length;
        expect(Math.abs(split.clockMs ** 2 + 2 * split.motorMs ** 2 - variance)).toBeLessThanOrEqual(
          1e-9 * Math.max(1, variance),
        );
      }),
    );
  });

  test("is unmeasured with a reason for few intervals, for a drifting tempo and for a zigzag", () => {
    const reason = { unmeasured: expect.stringMatching(/\S/) };
    expect(wingKristofferson([])).toEqual(reason);
    expect(wingKristofferson([500, 510, 490])).toEqual(reason);
    expect(wingKristofferson(Array.from({ length: 20 }, (_, i) => 500 + 5 * i))).toEqual(reason);
    expect(wingKristofferson(Array.from({ length: 20 }, (_, i) => 500 + (i % 2) * 40))).toEqual(reason);
  });

  test("a metronome has no noise to split", () => {
    expect(wingKristofferson(Array(12).fill(500))).toEqual({ clockMs: 0, motorMs: 0, lagOne: 0 });
  });

  test("refuses an interval that is not finite, and names it", () => {
    expect(() => wingKristofferson([500, Number.NaN])).toThrow(/interval 1 /);
  });
});
