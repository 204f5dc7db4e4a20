import { describe, expect, test } from "vitest";
import { gateText, sequentialRates, waldBounds } from "../../../lib/progress/index.js";

const gate = { kind: "sequential", able: 0.8, unready: 0.4, wronglyLetOn: 0.1, wronglyHeld: 0.2 } as const;

describe("waldBounds()", () => {
  test.each([
    { unready: 0 },
    { unready: -0.1 },
    { unready: 0.8 },
    { unready: 0.9 },
    { able: 1 },
    { able: 1.1 },
    { able: Number.NaN },
    { wronglyLetOn: 0 },
    { wronglyLetOn: -0.1 },
    { wronglyHeld: 0 },
    { wronglyHeld: -0.1 },
    { wronglyLetOn: 0.8 },
    { wronglyLetOn: 0.9 },
    { wronglyLetOn: 1.4 },
  ])("throws for %o, of which no test can be made", (broken) => {
    expect(() => waldBounds({ ...gate, ...broken })).toThrow(RangeError);
  });

  test("are made of probabilities next to those limits", () => {
    for (const near of [{ unready: 1e-9 }, { able: 1 - 1e-9 }, { wronglyLetOn: 1e-9 }, { wronglyHeld: 0.9 - 1e-9 }])
      expect(Object.values(waldBounds({ ...gate, ...near })).every(Number.isFinite)).toBe(true);
  });
});

describe("the fewest takes of a sequential gate", () => {
  test("are those whose likelihood ratio reaches the bound itself", () => {
    // Each clean take doubles the ratio, 0.8 / 0.4; the bound is 0.8 / 0.1 = 8, three doublings.
    expect(sequentialRates(gate).fewestTakes).toBe(3);
    expect(gateText(gate)).toMatch(/\b3\b/);
    expect(sequentialRates({ ...gate, wronglyHeld: 0.19 }).fewestTakes).toBe(4);
  });
});
