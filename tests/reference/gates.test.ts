import { binomialDistribution } from "simple-statistics";
import { describe, expect, test } from "vitest";
import type { Gate } from "../../lib/drill/index.js";
import {
  gateCurve,
  type SequentialGate,
  sequentialRates,
  waldBounds,
  waldExpectedTakes,
} from "../../lib/progress/index.js";

/** Half a unit in the last printed digit. */
const printed = (digits: number): number => 0.5 * 10 ** -digits;

function near(found: number, wanted: number, tolerance: number): void {
  expect(Math.abs(found - wanted), `${found} for ${wanted}`).toBeLessThanOrEqual(tolerance);
}

describe("n clean of the first m takes", () => {
  // Computed for this table from the binomial distribution; binomial tail sums are standard, no single source.
  const rows: readonly [clean: number, of: number, half: number, seven: number, nine: number, digits: number][] = [
    [3, 3, 0.125, 0.343, 0.729, 12],
    [4, 5, 0.1875, 0.52822, 0.91854, 12],
    [8, 10, 0.0546875, 0.3827828, 0.9298092, 7],
    [9, 10, 0.0107422, 0.1493083, 0.7360989, 7],
  ];
  test.each(rows)(
    "gateCurve() lets %i of %i on within the window as the table says",
    (clean, of, half, seven, nine, digits) => {
      const gate: Gate = { kind: "clean of last", clean, of };
      for (const [p, wanted] of [
        [0.5, half],
        [0.7, seven],
        [0.9, nine],
      ] as const)
        near(gateCurve(gate, p, { takes: of }).within[of - 1]!, wanted, printed(digits));
    },
  );

  test.each([
    [2, 5],
    [6, 9],
    [11, 12],
    [12, 16],
  ])("gateCurve() agrees with the binomial tail of another library for %i of %i", (clean, of) => {
    for (const p of [0.05, 0.35, 0.8]) {
      const terms = binomialDistribution(of, p)!;
      const tail = terms.slice(clean).reduce((sum, each) => sum + each, 0);
      // That library stops its table once all but 1e-4 is covered; the rest belongs to the tail's end.
      near(gateCurve({ kind: "clean of last", clean, of }, p, { takes: of }).within[of - 1]!, tail, 1e-4);
    }
  });
});

describe("expected number of takes until a row of r clean ones", () => {
  // (1 - p^r) / ((1 - p) p^r): Feller, "An Introduction to Probability Theory and Its Applications" I, XIII.7 (from memory); values computed.
  const rows: readonly [count: number, p: number, takes: number, digits: number][] = [
    [3, 0.5, 14, 9],
    [3, 0.7, 6.38484, 5],
    [3, 0.9, 3.71742, 5],
    [5, 0.5, 62, 9],
    [5, 0.7, 16.49967, 5],
    [5, 0.9, 6.93509, 5],
  ];
  test.each(rows)("r = %i at p = %f is %f", (count, p, takes, digits) => {
    near(gateCurve({ kind: "in a row", count }, p).expectedTakes as number, takes, printed(digits));
    // All of the last r is the same gate in other words, worked out over windows instead of rows.
    near(
      gateCurve({ kind: "clean of last", clean: count, of: count }, p).expectedTakes as number,
      takes,
      printed(digits),
    );
  });

  test("holds where being let on is rare: r = 8 at p = 0.1 takes (1 - p^8) / ((1 - p) p^8) takes", () => {
    const wanted = (1 - 1e-8) / (0.9 * 1e-8);
    near((gateCurve({ kind: "in a row", count: 8 }, 0.1).expectedTakes as number) / wanted, 1, 1e-9);
  });
});

describe("Wald's sequential test", () => {
  // Bounds ln((1 - β) / α), ln(β / (1 - α)) and the approximate expected sample numbers: Wald 1945, read in several texts quoting him;
  // the numbers were computed from these formulas with another program.
  const strict: SequentialGate = { kind: "sequential", able: 0.9, unready: 0.7, wronglyLetOn: 0.05, wronglyHeld: 0.05 };
  const loose: SequentialGate = { kind: "sequential", able: 0.85, unready: 0.5, wronglyLetOn: 0.1, wronglyHeld: 0.1 };

  test(".70 against .90 at 5 % and 5 %: bounds, steps, expected takes, fewest takes", () => {
    const bounds = waldBounds(strict);
    near(bounds.upper, 2.9444389792, printed(10));
    near(bounds.lower, -2.9444389792, printed(10));
    near(bounds.clean, 0.2513144283, printed(10));
    near(bounds.beyond, -1.0986122887, printed(10));
    near(waldExpectedTakes(strict).unready, 17.2454, printed(4));
    near(waldExpectedTakes(strict).able, 22.7816, printed(4));
    expect(sequentialRates(strict).fewestTakes).toBe(12);
  });

  test(".50 against .85 at 10 % and 10 %: bounds, steps, expected takes, fewest takes", () => {
    const bounds = waldBounds(loose);
    near(bounds.upper, 2.1972, printed(4));
    near(bounds.clean, 0.530628, printed(6));
    near(bounds.beyond, -1.203973, printed(6));
    near(waldExpectedTakes(loose).unready, 5.221, printed(4));
    near(waldExpectedTakes(loose).able, 6.4997, printed(4));
    expect(sequentialRates(loose).fewestTakes).toBe(5);
  });

  test("NIST/SEMATECH e-Handbook 6.2.6: p1 .01, p2 .10, α .05, β .10 gives its lines and its decisions at n = 24", () => {
    // There a lot with few defects is accepted: an able player with 1 % takes beyond tolerance against one with 10 %.
    // Inputs from memory; k, h1, h2 and s computed; accept at 0 and reject at 3 of 24 read in a mirror of the handbook.
    const { upper, lower, clean, beyond } = waldBounds({
      kind: "sequential",
      able: 0.99,
      unready: 0.9,
      wronglyLetOn: 0.1,
      wronglyHeld: 0.05,
    });
    const k = clean - beyond;
    const [h1, h2, s] = [upper / k, -lower / k, clean / k];
    near(k, 2.3978952728, printed(10));
    near(h1, 0.9388616026, printed(10));
    near(h2, 1.2053786463, printed(10));
    near(s, 0.0397474322, printed(10));
    expect(Math.floor(s * 24 - h1)).toBe(0);
    expect(Math.ceil(s * 24 + h2)).toBe(3);
  });

  test.each([strict, loose])("the error rates it really has obey Wald's inequalities", (gate) => {
    // Wald 1945: α' / (1 - β') <= α / (1 - β) and β' / (1 - α') <= β / (1 - α), exact consequences of the bounds.
    const { able, unready } = sequentialRates(gate);
    expect(unready.letOn / able.letOn).toBeLessThanOrEqual(gate.wronglyLetOn / (1 - gate.wronglyHeld) + 1e-12);
    expect(able.held / unready.held).toBeLessThanOrEqual(gate.wronglyHeld / (1 - gate.wronglyLetOn) + 1e-12);
    near(able.letOn + able.held, 1, 1e-12);
    near(unready.letOn + unready.held, 1, 1e-12);
  });

  test.each([strict, loose])(
    "the expected takes of one test obey Wald's identity E[sum] = E[step] E[takes]",
    (gate) => {
      // The sum at the end of a test lies beyond a bound by at most one step, so the identity brackets the exact expectation.
      const bounds = waldBounds(gate);
      const rates = sequentialRates(gate);
      for (const [p, { letOn, held, expectedTakes }] of [
        [gate.able, rates.able],
        [gate.unready, rates.unready],
      ] as const) {
        const drift = expectedTakes * (p * bounds.clean + (1 - p) * bounds.beyond);
        const least = letOn * bounds.upper + held * (bounds.lower + bounds.beyond);
        const most = letOn * (bounds.upper + bounds.clean) + held * bounds.lower;
        expect(drift).toBeGreaterThanOrEqual(least - 1e-9);
        expect(drift).toBeLessThanOrEqual(most + 1e-9);
      }
    },
  );
});
