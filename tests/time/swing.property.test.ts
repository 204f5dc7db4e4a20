import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { add, compare, equals, fraction } from "../../lib/base/index.js";
import { swungPosition } from "../../lib/time/index.js";
import { barsOf } from "./shorthand.js";

const swings = fc
  .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }), fc.constantFrom(4, 8, 16))
  .map(([first, second, d]) => ({ first, second, subdivision: fraction(1, d) }));
const positions = fc.integer({ min: -192, max: 1000 }).map((n) => fraction(n, 192));
const bars = fc
  .option(fc.array(fc.constantFrom("4/4", "2+2+3/8", "3/4", "12/8", "5/8"), { minLength: 1, maxLength: 5 }))
  .map((meters) => (meters ? barsOf(...meters) : undefined));

describe("swungPosition()", () => {
  test("is strictly monotone: swung notes keep their order", () => {
    fc.assert(
      fc.property(swings, bars, positions, positions, (swing, within, a, b) => {
        const order = compare(swungPosition(a, swing, within), swungPosition(b, swing, within));
        expect(Math.sign(order)).toBe(Math.sign(compare(a, b)));
      }),
    );
  });

  test("is the identity on the boundaries of pairs", () => {
    fc.assert(
      fc.property(swings, fc.integer({ min: -20, max: 20 }), (swing, pairs) => {
        const boundary = fraction(2 * pairs * swing.subdivision.n, swing.subdivision.d);
        expect(swungPosition(boundary, swing)).toEqual(boundary);
      }),
    );
  });

  test("is the identity on every bar line", () => {
    fc.assert(
      fc.property(swings, bars, (swing, within) => {
        for (const bar of within ?? [])
          expect(equals(swungPosition(bar.position, swing, within), bar.position)).toBe(true);
      }),
    );
  });

  test("moves nothing by more than a subdivision", () => {
    fc.assert(
      fc.property(swings, bars, positions, (swing, within, at) => {
        const there = swungPosition(at, swing, within);
        expect(compare(there, add(at, swing.subdivision))).toBeLessThan(0);
        expect(compare(at, add(there, swing.subdivision))).toBeLessThan(0);
      }),
    );
  });
});
