import { describe, expect, test } from "vitest";
import { brierScore, type Outcome, reliability } from "../bench/calibration.js";

const row = (chance: number, clean: boolean): Outcome => ({ chance, clean });

describe("brierScore()", () => {
  // By hand: (0.1^2 + 0.2^2 + 0.7^2 + 0.5^2) / 4 = (0.01 + 0.04 + 0.49 + 0.25) / 4.
  test("is the mean squared difference", () => {
    expect(brierScore([row(0.9, true), row(0.2, false), row(0.3, true), row(0.5, false)])).toBeCloseTo(0.1975, 12);
  });
  test("is 0 at best, 1 at worst, and a quarter for always one half", () => {
    expect(brierScore([row(1, true), row(0, false)])).toBe(0);
    expect(brierScore([row(0, true), row(1, false)])).toBe(1);
    expect(brierScore([row(0.5, true), row(0.5, false)])).toBe(0.25);
  });
  test("of nothing is refused", () => expect(() => brierScore([])).toThrow(RangeError));
});

describe("reliability()", () => {
  test("sorts forecasts into tenths and compares them with what came", () => {
    const rows = reliability([row(0.12, false), row(0.18, true), row(0.3, false), row(1, true), row(0, false)]);
    expect(rows).toHaveLength(10);
    expect(rows.map(({ count }) => count)).toEqual([1, 2, 0, 1, 0, 0, 0, 0, 0, 1]);
    expect(rows[1]).toMatchObject({ from: 0.1, to: 0.2, clean: 0.5 });
    expect(rows[1]!.forecast).toBeCloseTo(0.15, 12);
    // By hand: sqrt(0.12 * 0.88 + 0.18 * 0.82) / 2.
    expect(rows[1]!.samplingError).toBeCloseTo(Math.sqrt(0.1056 + 0.1476) / 2, 12);
    expect(rows[2]).toMatchObject({ count: 0, forecast: 0, clean: 0, samplingError: 0 });
  });
  test("needs a range", () => expect(() => reliability([], 0)).toThrow(RangeError));
});
