import { describe, expect, test } from "vitest";
import { random } from "../../../lib/base/index.js";
import type { Gate } from "../../../lib/drill/index.js";
import { gateCurve, sequentialRates, WIDEST_WINDOW, weigh } from "../../../lib/progress/index.js";

const gates: readonly Gate[] = [
  { kind: "clean of last", clean: 3, of: 4 },
  { kind: "clean of last", clean: 7, of: 10 },
  { kind: "in a row", count: 3 },
  { kind: "sequential", able: 0.85, unready: 0.5, wronglyLetOn: 0.1, wronglyHeld: 0.1 },
];

describe("gateCurve()", () => {
  test.each(gates)("agrees with simulated players who are let on by the gate itself: %o", (gate) => {
    const players = 4000;
    const takes = 20;
    for (const [p, unclear] of [
      [0.5, 0],
      [0.75, 0.2],
    ] as const) {
      const { within } = gateCurve(gate, p, { takes, unclear });
      const chance = random(`${gate.kind} ${p}`);
      const letOn = new Array<number>(takes).fill(0);
      for (let player = 0; player < players; player++) {
        let outcomes = "";
        for (let k = 0; k < takes; k++) {
          outcomes += chance.uniform() < unclear ? "u" : chance.uniform() < p ? "w" : "b";
          if (!weigh(gate, outcomes).met) continue;
          for (let later = k; later < takes; later++) letOn[later]!++;
          break;
        }
      }
      // Five standard errors of a share: 160 comparisons stray beyond that once in about 10^4 choices of the seed, which is fixed.
      within.forEach((share, k) => {
        const tolerance = 5 * Math.sqrt((share * (1 - share)) / players);
        expect(Math.abs(letOn[k]! / players - share), `within ${k + 1} takes at ${p}`).toBeLessThanOrEqual(tolerance);
      });
    }
  });

  test.each(gates)("climbs with every take and adds up to the expected number of takes: %o", (gate) => {
    const { within, expectedTakes, truncated } = gateCurve(gate, 0.8, { takes: 2000 });
    within.forEach((chance, k) => {
      expect(chance).toBeGreaterThanOrEqual((within[k - 1] ?? 0) - 1e-12);
      expect(chance).toBeLessThanOrEqual(1 + 1e-12);
    });
    // The mean of a count is the sum of its tail chances; those after 2000 takes are below rounding at this chance.
    const mean = within.slice(0, -1).reduce((sum, chance) => sum + 1 - chance, 1);
    expect(expectedTakes as number).toBeCloseTo(mean, 6);
    expect(truncated).toBeLessThanOrEqual(1e-12);
  });

  test.each(gates)("divides the expected number of takes by the share of clear ones: %o", (gate) => {
    const clear = gateCurve(gate, 0.8).expectedTakes as number;
    expect(gateCurve(gate, 0.8, { unclear: 0.75 }).expectedTakes as number).toBeCloseTo(clear * 4, 9);
  });

  test.each(gates)("never lets on a player without a clean take, and says so instead of a number: %o", (gate) => {
    const { within, expectedTakes } = gateCurve(gate, 0);
    expect(Math.max(...within)).toBe(0);
    expect(expectedTakes).toMatchObject({ unmeasured: "such a player is never let on" });
  });

  test.each(gates)("lets a player whose every take is clean on after the fewest takes: %o", (gate) => {
    const fewest =
      gate.kind === "sequential"
        ? sequentialRates(gate).fewestTakes
        : gate.kind === "in a row"
          ? gate.count
          : gate.clean;
    const { within, expectedTakes } = gateCurve(gate, 1);
    expect(within.findIndex((chance) => chance > 0)).toBe(fewest - 1);
    expect(within[fewest - 1]).toBeCloseTo(1, 12);
    expect(expectedTakes as number).toBeCloseTo(fewest, 9);
  });

  test("works the widest window out", () => {
    const { within } = gateCurve({ kind: "clean of last", clean: 8, of: WIDEST_WINDOW }, 0.5, { takes: WIDEST_WINDOW });
    // At least 8 heads of 16: (1 + C(16,8)/2^16) / 2, by symmetry.
    expect(within.at(-1)).toBeCloseTo((1 + 12870 / 65536) / 2, 12);
  });

  test.each([
    [{ kind: "clean of last", clean: 5, of: 4 } as Gate, 0.5, {}],
    [{ kind: "clean of last", clean: 5, of: WIDEST_WINDOW + 1 } as Gate, 0.5, {}],
    [{ kind: "in a row", count: 0 } as Gate, 0.5, {}],
    [{ kind: "sequential", able: 0.5, unready: 0.8, wronglyLetOn: 0.1, wronglyHeld: 0.1 } as Gate, 0.5, {}],
    [{ kind: "sequential", able: 0.8, unready: 0.5, wronglyLetOn: 0.6, wronglyHeld: 0.6 } as Gate, 0.5, {}],
    [gates[0]!, 1.01, {}],
    [gates[0]!, Number.NaN, {}],
    [gates[0]!, 0.5, { takes: 0 }],
    [gates[0]!, 0.5, { unclear: 1 }],
  ])("refuses what cannot be worked out: %o at %f, %o", (gate, p, options) => {
    expect(() => gateCurve(gate, p, options)).toThrow(RangeError);
  });
});
