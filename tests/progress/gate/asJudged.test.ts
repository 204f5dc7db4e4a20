import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { random } from "../../../lib/base/index.js";
import type { Gate } from "../../../lib/drill/index.js";
import {
  asJudged,
  gateCurve,
  NONE_TOLD,
  NONE_TOLD_SLIPS_HIDDEN,
  type VerdictRates,
  weigh,
} from "../../../lib/progress/index.js";

const GATES: readonly Gate[] = [
  { kind: "clean of last", clean: 3, of: 4 },
  { kind: "in a row", count: 3 },
  { kind: "sequential", able: 0.85, unready: 0.5, wronglyLetOn: 0.1, wronglyHeld: 0.1 },
];
const TAKES = 20;

/**
 * Share of students let on within 1, 2, ... takes by the gate itself. Each take truly fails or not, and is then called within, beyond or unclear by
 * the kind of failing: so much apart from the chain as a student can be.
 */
function letOnShares(gate: Gate, p: number, callOf: (failed: boolean, luck: () => number) => string): number[] {
  const students = 4000;
  const stream = random(`${gate.kind} ${p}`);
  const letOn = new Array<number>(TAKES).fill(0);
  for (let student = 0; student < students; student++) {
    let outcomes = "";
    for (let k = 0; k < TAKES; k++) {
      outcomes += callOf(stream.uniform() >= p, () => stream.uniform());
      if (!weigh(gate, outcomes).met) continue;
      for (let later = k; later < TAKES; later++) letOn[later]!++;
      break;
    }
  }
  return letOn.map((count) => count / students);
}

const called =
  (failedWithin: number, failedUnclear: number, cleanUnclear: number) => (failed: boolean, luck: () => number) => {
    const draw = luck();
    if (!failed) return draw < cleanUnclear ? "u" : "w";
    return draw < failedWithin ? "w" : draw < failedWithin + failedUnclear ? "u" : "b";
  };

const share = fc.integer({ min: 0, max: 100 }).map((each) => each / 100);
const rates: fc.Arbitrary<VerdictRates> = fc
  .tuple(
    share,
    share,
    share.map((each) => 0.9 * each),
  )
  .map(([failed, within, cleanUnclear]) => ({
    failedWithin: failed * within,
    failedUnclear: failed * (1 - within),
    cleanUnclear,
  }));

describe("asJudged()", () => {
  test.each(GATES)("gives the curve of students whose failings are told in part: %o", (gate) => {
    const told = { failedWithin: 0.03, failedUnclear: 0.4, cleanUnclear: 0.1 };
    for (const p of [0.5, 0.8]) {
      const { p: clean, unclear } = asJudged(p, told);
      const { within } = gateCurve(gate, clean, { takes: TAKES, unclear });
      const found = letOnShares(gate, p, called(told.failedWithin, told.failedUnclear, told.cleanUnclear));
      within.forEach((chance, k) => {
        expect(Math.abs(found[k]! - chance)).toBeLessThanOrEqual(5 * Math.sqrt((chance * (1 - chance)) / 4000));
      });
    }
  });

  test("changes nothing where every take is told as it is", () => {
    expect(asJudged(0.7, { failedWithin: 0, failedUnclear: 0, cleanUnclear: 0 })).toEqual({ p: 0.7, unclear: 0 });
  });

  test.each(GATES)(
    "nobody whose failings are called clean as often or less is let on sooner than who has none told: %o",
    (gate) => {
      fc.assert(
        fc.property(rates, fc.integer({ min: 1, max: 99 }), (each, percent) => {
          const most = Math.max(NONE_TOLD.failedWithin, each.failedWithin);
          const bound = asJudged(percent / 100, { failedWithin: most, failedUnclear: 1 - most, cleanUnclear: 0 });
          const real = asJudged(percent / 100, each);
          const curve = (of: typeof bound): readonly number[] =>
            gateCurve(gate, of.p, { takes: TAKES, unclear: of.unclear }).within;
          curve(real).forEach((chance, k) => {
            expect(chance).toBeLessThanOrEqual(curve(bound)[k]! + 1e-9);
          });
        }),
        { numRuns: 40 },
      );
    },
  );

  test("students who fail as simulated ones do are let on within 5 takes no more often than is said", () => {
    // Of takes that truly fail in ten ways, heard with pitches and without, most within and unclear on any rung; of even sevens without pitches.
    for (const [failedWithin, failedUnclear, said] of [
      [0.05, 0.3, NONE_TOLD],
      [0.03, 0.55, NONE_TOLD],
      [0.08, 0.8, NONE_TOLD_SLIPS_HIDDEN],
    ] as const)
      for (const p of [0.5, 0.7, 0.9]) {
        const found = letOnShares(GATES[0]!, p, called(failedWithin, failedUnclear, 0.02));
        const bound = asJudged(p, said);
        const { within } = gateCurve(GATES[0]!, bound.p, { takes: TAKES, unclear: bound.unclear });
        for (const k of [5, 10, 20]) expect(found[k - 1]!).toBeLessThanOrEqual(within[k - 1]! + 0.01);
      }
  });

  test.each([
    [1.1, NONE_TOLD],
    [0.5, { ...NONE_TOLD, failedWithin: 0.2 }],
    [0, { failedWithin: 0, failedUnclear: 1, cleanUnclear: 0 }],
  ])("refuses what is no share, and takes that are all unclear: %f, %j", (p, each) => {
    expect(() => asJudged(p, each)).toThrow(RangeError);
  });
});
