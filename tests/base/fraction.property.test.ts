import * as fc from "fast-check";
import { Fraction as Oracle } from "fraction.js";
import { describe, expect, test } from "vitest";
import type { Fraction } from "../../lib/base/index.js";
import {
  add,
  compare,
  divide,
  equals,
  floor,
  fraction,
  fractionText,
  gcd,
  multiply,
  negate,
  parseFraction,
  subtract,
  toNumber,
} from "../../lib/base/index.js";

/** Up to 10^4, so that sums and products of two stay exact below 2^53. */
const small = fc.tuple(fc.integer({ min: -10_000, max: 10_000 }), fc.integer({ min: 1, max: 10_000 }));
const fractions = small.map(([n, d]) => fraction(n, d));
const oracle = (f: Fraction): Oracle => new Oracle(f.n, f.d);
const same = (f: Fraction, o: Oracle): void => expect(fractionText(f)).toBe(o.toFraction());

describe("fraction algebra against fraction.js", () => {
  test("add, subtract, multiply and divide agree with it", () => {
    fc.assert(
      fc.property(fractions, fractions, (a, b) => {
        same(add(a, b), oracle(a).add(oracle(b)));
        same(subtract(a, b), oracle(a).sub(oracle(b)));
        same(multiply(a, b), oracle(a).mul(oracle(b)));
        if (b.n !== 0) same(divide(a, b), oracle(a).div(oracle(b)));
      }),
    );
  });

  test("compare() has the sign of its compare, equals() its equality, floor() its floor", () => {
    fc.assert(
      fc.property(fractions, fractions, (a, b) => {
        expect(Math.sign(compare(a, b))).toBe(Math.sign(oracle(a).compare(oracle(b))));
        expect(equals(a, b)).toBe(oracle(a).equals(oracle(b)));
        expect(floor(a)).toBe(oracle(a).floor().valueOf());
      }),
    );
  });
});

describe("fraction laws", () => {
  test("every result is in lowest terms with a positive divisor", () => {
    fc.assert(
      fc.property(fractions, fractions, (a, b) => {
        for (const f of [a, add(a, b), multiply(a, b), negate(a)]) {
          expect(f.d).toBeGreaterThan(0);
          expect(gcd(Math.abs(f.n), f.d)).toBe(1);
          expect(Object.is(f.n, -0)).toBe(false);
        }
      }),
    );
  });

  test("parseFraction() reads back what fractionText() writes", () => {
    fc.assert(
      fc.property(fractions, (a) => {
        expect(parseFraction(fractionText(a))).toEqual(a);
      }),
    );
  });

  test("toNumber() is monotone", () => {
    fc.assert(fc.property(fractions, fractions, (a, b) => compare(a, b) >= 0 || toNumber(a) <= toNumber(b)));
  });
});
