import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { bearing, circularDeviation, rayleighTest, vTest } from "./circularStatistics.js";

const angle = fc.double({ min: -20, max: 20, noNaN: true });
const angles = fc.array(angle, { minLength: 1, maxLength: 40 });
const turn = (difference: number): number => Math.abs(Math.atan2(Math.sin(difference), Math.cos(difference)));

describe("bearing()", () => {
  test("turning all angles turns the direction as much and leaves the resultant", () => {
    fc.assert(
      fc.property(angles, angle, (list, by) => {
        const plain = bearing(list);
        const turned = bearing(list.map((each) => each + by));
        expect(Math.abs(turned.resultant - plain.resultant)).toBeLessThanOrEqual(1e-13);
        // The direction is as uncertain as rounding over the length of the resultant.
        if (typeof plain.direction !== "number" || typeof turned.direction !== "number") return;
        expect(turn(turned.direction - plain.direction - by) * plain.resultant).toBeLessThanOrEqual(1e-13);
      }),
    );
  });

  test("whole weights are the same as repeating angles", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(angle, fc.integer({ min: 1, max: 4 })), { minLength: 1, maxLength: 12 }),
        (list) => {
          const weighted = bearing(
            list.map(([each]) => each),
            list.map(([, weight]) => weight),
          );
          const repeated = bearing(list.flatMap(([each, weight]) => Array<number>(weight).fill(each)));
          expect(Math.abs(weighted.resultant - repeated.resultant)).toBeLessThanOrEqual(1e-14);
        },
      ),
    );
  });

  test("has no direction when the angles cancel out, and refuses none at all", () => {
    expect(bearing([0, Math.PI]).direction).toEqual({ unmeasured: expect.any(String) });
    expect(() => bearing([])).toThrow(RangeError);
    expect(() => bearing([1], [])).toThrow(RangeError);
    expect(() => bearing([1], [0])).toThrow(RangeError);
  });
});

describe("rayleighTest() and vTest()", () => {
  test("give probabilities", () => {
    fc.assert(
      fc.property(angles, angle, (list, direction) => {
        for (const { p } of [rayleighTest(list), vTest(list, direction)]) expect(p >= 0 && p <= 1).toBe(true);
      }),
    );
  });

  test("claim a shared direction of random angles as often as their level says: 5 % of 4,000 sets", () => {
    const chance = random("no direction");
    const runs = 4000;
    for (const n of [6, 12, 40]) {
      let locked = 0;
      let towards = 0;
      for (let run = 0; run < runs; run++) {
        const list = Array.from({ length: n }, () => 2 * Math.PI * chance.uniform());
        if (rayleighTest(list).p < 0.05) locked++;
        if (vTest(list, 1).p < 0.05) towards++;
      }
      // Four standard errors of a share of 5 %, and 0.002 for the series.
      const most = 4 * Math.sqrt((0.05 * 0.95) / runs) + 0.002;
      expect(Math.abs(locked / runs - 0.05)).toBeLessThanOrEqual(most);
      expect(Math.abs(towards / runs - 0.05)).toBeLessThanOrEqual(most);
    }
  });
});

describe("circularDeviation()", () => {
  test("is 0 for angles that agree, unmeasured for those that cancel out, and refuses what is no resultant", () => {
    expect(circularDeviation(1)).toBe(0);
    expect(circularDeviation(0)).toEqual({ unmeasured: expect.any(String) });
    expect(() => circularDeviation(1.1)).toThrow(RangeError);
    expect(() => circularDeviation(Number.NaN)).toThrow(RangeError);
  });
});
