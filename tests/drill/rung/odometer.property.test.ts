import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { odometer, type Wheel } from "../../../lib/drill/index.js";

const wheel = (most: number): fc.Arbitrary<Wheel> =>
  fc
    .integer({ min: 1, max: most })
    .chain((count) => fc.record({ count: fc.constant(count), revisited: fc.integer({ min: 1, max: count }) }));
const small = fc.array(wheel(4), { maxLength: 4 });
const large = fc.array(wheel(100_000), { minLength: 1, maxLength: 3 });

/** Every position in order, by turning the wheels one step at a time as a teacher would describe it. */
function enumerate(wheels: readonly Wheel[]): number[][] {
  const digits = wheels.map(() => 0);
  const all = [[...digits]];
  for (;;) {
    const climbing = digits.findIndex((digit, i) => digit < wheels[i]!.count - 1);
    if (climbing < 0) return all;
    digits[climbing]!++;
    for (let i = 0; i < climbing; i++) digits[i] = wheels[i]!.count - wheels[i]!.revisited;
    all.push([...digits]);
  }
}

describe("odometer()", () => {
  test("agrees with turning the wheels one by one", () => {
    fc.assert(
      fc.property(small, (wheels) => {
        const order = odometer(wheels);
        const all = enumerate(wheels);
        expect(order.count).toBe(all.length);
        expect(all.map((_, i) => order.at(i))).toEqual(all);
        expect(all.map((digits) => order.indexOf(digits))).toEqual(all.map((_, i) => i));
      }),
    );
  });

  test("knows exactly the positions that occur", () => {
    fc.assert(
      fc.property(small, fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 4, maxLength: 4 }), (wheels, values) => {
        const digits = values.slice(0, wheels.length);
        const place = enumerate(wheels).findIndex((one) => one.join() === digits.join());
        expect(odometer(wheels).indexOf(digits)).toBe(place < 0 ? undefined : place);
      }),
    );
  });

  test("at() and indexOf() are inverse, whatever the size", () => {
    fc.assert(
      fc.property(large, fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }), (wheels, share) => {
        const order = odometer(wheels);
        const index = Math.floor(share * order.count);
        expect(order.indexOf(order.at(index))).toBe(index);
      }),
    );
  });

  test("climbs: the last wheel that differs from one position to the next is higher after than before", () => {
    fc.assert(
      fc.property(large, fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }), (wheels, share) => {
        const order = odometer(wheels);
        if (order.count < 2) return;
        const index = Math.floor(share * (order.count - 1));
        const [before, after] = [order.at(index), order.at(index + 1)];
        const differing = before.findLastIndex((digit, i) => digit !== after[i]);
        expect(after[differing]).toBe(before[differing]! + 1);
      }),
    );
  });

  test("begins with every wheel at its bottom and ends with every wheel at its top", () => {
    fc.assert(
      fc.property(large, (wheels) => {
        const order = odometer(wheels);
        expect(order.at(0)).toEqual(wheels.map(() => 0));
        expect(order.at(order.count - 1)).toEqual(wheels.map(({ count }) => count - 1));
      }),
    );
  });
});
