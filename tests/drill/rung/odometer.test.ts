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
    expect(() => order.at(2)).toThrow("an index must be a whole number from 0 to 1, got 2");
    for (const [count, revisited] of [
      [0, 0],
      [0, 1],
      [2, 3],
      [2, 0],
      [2, 1.5],
      [2.5, 1],
      [2 ** 53, 1],
      [Number.NaN, 1],
    ] as const)
      expect(() => odometer([{ count, revisited }])).toThrow(
        `a wheel needs 1 <= revisited <= count, got revisited ${revisited}, count ${count}`,
      );
    expect(() => odometer([{ count: 1, revisited: 1 }])).not.toThrow();
    // 2^53 - 1 is the greatest whole number below which all are exact; one less is the most that can be counted.
    const most = Number.MAX_SAFE_INTEGER;
    expect(() => odometer([{ count: most, revisited: 1 }])).toThrow(
      `an odometer cannot count ${most} positions exactly`,
    );
    expect(odometer([{ count: most - 1, revisited: 1 }]).count).toBe(most - 1);
    expect(() => odometer(new Array(54).fill({ count: 2, revisited: 2 }))).toThrow(RangeError);
    expect(odometer(new Array(52).fill({ count: 2, revisited: 2 })).count).toBe(2 ** 52);
  });

  test("answers none for values that are not on the wheels", () => {
    const order = odometer([{ count: 2, revisited: 2 }]);
    for (const digits of [[2], [-1], [0.5], [], [0, 0]]) expect(order.indexOf(digits)).toBeUndefined();
  });
});
