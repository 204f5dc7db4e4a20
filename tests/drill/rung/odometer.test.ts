import { describe, expect, test } from "vitest";
import { odometer } from "../../../lib/drill/index.js";

describe("odometer()", () => {
  test("counts as written out by hand: three values restarting one back, then two values", () => {
    const order = odometer([
      { count: 3, revisited: 2 },
      { count: 2, revisited: 2 },
    ]);
    const written = [
      [0, 0],
      [1, 0],
      [2, 0],
      [1, 1],
      [2, 1],
    ];
    expect(order.count).toBe(written.length);
    expect(written.map((_, i) => order.at(i))).toEqual(written);
  });

  test("has one position without wheels", () => {
    expect(odometer([]).count).toBe(1);
    expect(odometer([]).at(0)).toEqual([]);
    expect(odometer([]).indexOf([])).toBe(0);
  });

  test("is the product of the counts when every wheel restarts at its bottom", () => {
    const wheels = [7, 5, 3].map((count) => ({ count, revisited: count }));
    expect(odometer(wheels).count).toBe(105);
  });

  test("never shows values below a restart once a later wheel has turned", () => {
    const order = odometer([
      { count: 3, revisited: 1 },
      { count: 2, revisited: 2 },
    ]);
    expect(order.indexOf([0, 1])).toBeUndefined();
    expect(order.indexOf([2, 1])).toBe(3);
  });

  test("refuses indices outside, wheels without values and counts of 2^53 and more", () => {
    const order = odometer([{ count: 2, revisited: 2 }]);
    for (const index of [-1, 2, 0.5, Number.NaN]) expect(() => order.at(index)).toThrow(RangeError);
    expect(() => odometer([{ count: 0, revisited: 0 }])).toThrow(RangeError);
    expect(() => odometer([{ count: 2, revisited: 3 }])).toThrow(RangeError);
    expect(() => odometer(new Array(54).fill({ count: 2, revisited: 2 }))).toThrow(RangeError);
    expect(odometer(new Array(52).fill({ count: 2, revisited: 2 })).count).toBe(2 ** 52);
  });

  test("answers none for values that are not on the wheels", () => {
    const order = odometer([{ count: 2, revisited: 2 }]);
    for (const digits of [[2], [-1], [0.5], [], [0, 0]]) expect(order.indexOf(digits)).toBeUndefined();
  });
});
