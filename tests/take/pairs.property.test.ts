import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkFinding, type Finding, type Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { plainScore } from "./scores.js";

const WITH_OPEN_BAR: Score = (() => {
  const score = plainScore({ phrases: 2 });
  const bar = { from: 8, to: 10 };
  return {
    ...score,
    expected: score.expected.filter(({ at }) => at < bar.from || at >= bar.to),
    open: [{ ...bar, bars: [5], scale: "D dorian", pitchClasses: [2, 4, 5, 7, 9, 11, 0], subdivision: 0.125 }],
  };
})();
const SCORES: readonly Score[] = [
  plainScore({ phrases: 2 }),
  plainScore({ phrases: 1, perBeat: 4, outro: 0 }),
  plainScore({ silent: 0, phrases: 1, outro: 0, tolerance: { steadinessMs: 20 } }),
  WITH_OPEN_BAR,
  { ...plainScore({ phrases: 1 }), expected: [] },
];
const score = fc.constantFrom(...SCORES);
const near = fc.double({ min: -3, max: 20, noNaN: true });
const far = fc.double({ min: -1e9, max: 1e9, noNaN: true });
const onsets = fc.array(
  fc.oneof({ weight: 6, arbitrary: near }, { weight: 1, arbitrary: far }, fc.constantFrom(1, 1.5)),
  {
    maxLength: 120,
  },
);

/** A take that resembles the score: each note played or not, early or late, and other onsets among them, in any order. */
const alike = score.chain((each) =>
  fc
    .tuple(
      fc.array(fc.tuple(fc.double({ min: -0.2, max: 0.2, noNaN: true }), fc.boolean()), {
        minLength: each.expected.length,
        maxLength: each.expected.length,
      }),
      fc.array(near, { maxLength: 20 }),
    )
    .chain(([moves, extra]) => {
      const played = moves.flatMap(([by, there], i) => (there ? [each.expected[i]!.at + by] : []));
      return fc.shuffledSubarray([...played, ...extra], { minLength: played.length + extra.length });
    })
    .map((times): [Score, number[]] => [each, times]),
);
const any = fc.oneof(fc.tuple(score, onsets), alike);
const runs = { numRuns: 150 };

const inOpenBar = (each: Score, at: number): boolean => each.open.some(({ from, to }) => at >= from && at < to);

describe("assess(), whatever is played", () => {
  test("pairs one to one, in order of the notes and in order of time", () => {
    fc.assert(
      fc.property(any, ([each, times]) => {
        const { pairs } = assess(each, { onsets: times, zero: "bar-1" });
        for (let i = 1; i < pairs.length; i++) {
          expect(pairs[i]![0]).toBeGreaterThan(pairs[i - 1]![0]);
          expect(times[pairs[i]![1]]!).toBeGreaterThanOrEqual(times[pairs[i - 1]![1]]!);
        }
        expect(new Set(pairs.map(([, onset]) => onset)).size).toBe(pairs.length);
      }),
      runs,
    );
  });

  test("names every expected note once, as paired or as missed", () => {
    fc.assert(
      fc.property(any, ([each, times]) => {
        const { pairs, missed } = assess(each, { onsets: times, zero: "bar-1" });
        const named = [...pairs.map(([note]) => note), ...missed].sort((a, b) => a - b);
        expect(named).toEqual(each.expected.map((_, index) => index));
      }),
      runs,
    );
  });

  test("names every onset once, as paired or as added, unless it lies in open bars", () => {
    fc.assert(
      fc.property(any, ([each, times]) => {
        const { pairs, added } = assess(each, { onsets: times, zero: "bar-1" });
        const named = [...pairs.map(([, onset]) => onset), ...added];
        expect(new Set(named).size).toBe(named.length);
        times.forEach((at, index) => {
          if (!named.includes(index)) expect(inOpenBar(each, at), `onset ${index} at ${at}`).toBe(true);
        });
        for (const index of added) expect(inOpenBar(each, times[index]!)).toBe(false);
      }),
      runs,
    );
  });

  test("gives a finding of the published schema, with probabilities from 0 to 1 and no NaN", () => {
    fc.assert(
      fc.property(any, ([each, times]) => {
        const finding = assess(each, { onsets: times, zero: "bar-1" });
        expect(checkFinding(finding)).toMatchObject({ ok: true });
        expect(JSON.parse(JSON.stringify(finding))).toEqual(finding);
        for (const { probability } of [finding, ...finding.dropouts, finding.steadiness]) {
          if (typeof probability !== "number") expect(probability.unmeasured).not.toBe("");
          else expect(probability >= 0 && probability <= 1).toBe(true);
        }
      }),
      runs,
    );
  });

  test("says why wherever it says unclear without a probability between the limits", () => {
    fc.assert(
      fc.property(any, ([each, times]) => {
        const { dropouts, reasons } = assess(each, { onsets: times, zero: "bar-1" });
        dropouts.forEach(({ verdict, probability }, index) => {
          if (verdict !== "unclear" || typeof probability !== "number") return;
          const reasoned = reasons.some(({ dropout }) => dropout === undefined || dropout === index);
          expect(reasoned || (probability > 0.1 - 1e-4 && probability < 0.9 + 1e-4)).toBe(true);
        });
      }),
      runs,
    );
  });

  test("finds the same whatever order the onsets are given in; indices are those of the take as given", () => {
    fc.assert(
      fc.property(any, fc.infiniteStream(fc.nat()), ([each, times], keys) => {
        const distinct = [...new Set(times.map((at) => at + 0))];
        const order = distinct
          .map((_, i) => [keys.next().value as number, i] as const)
          .sort((a, b) => a[0] - b[0] || a[1] - b[1]);
        const shuffled = order.map(([, i]) => distinct[i]!);
        const places = new Map(order.map(([, i], place) => [place, i]));
        const straight = assess(each, { onsets: distinct, zero: "bar-1" });
        const other = assess(each, { onsets: shuffled, zero: "bar-1" });
        const back: Finding = {
          ...other,
          pairs: other.pairs.map(([note, onset]) => [note, places.get(onset)!]),
          added: other.added.map((onset) => places.get(onset)!),
        };
        expect(back).toEqual(straight);
      }),
      { numRuns: 80 },
    );
  });

  test("a time that is not a finite number is a RangeError that names the onset", () => {
    for (const strange of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      const take = { onsets: [0.5, { at: strange }, 1], zero: "bar-1" as const };
      expect(() => assess(SCORES[0]!, take)).toThrow(RangeError);
      expect(() => assess(SCORES[0]!, take)).toThrow(/onset 1 /);
    }
  });
});
