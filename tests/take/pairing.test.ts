import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { chancesAfter } from "../../lib/take/state/chances.js";
import { passOver } from "../../lib/take/state/filter.js";
import { guideOf } from "../../lib/take/state/guide.js";
import { pairOnsets, type RivalPairing } from "../../lib/take/state/pairing.js";
import { plainScore } from "./scores.js";

const noise = { clock: 12, motor: 14, bias: 0.015, correction: 0.36 };
const prior = { mean: -25, sd: 60 };
const missing = 0.04;
const logAdded = Math.log(2e-4);

/** Every way of pairing notes with onsets one to one and in order: per note its onset, or -1. */
function* everyPairing(notes: number, onsets: number, from = 0): Generator<number[]> {
  if (notes === 0) {
    yield [];
    return;
  }
  for (const rest of everyPairing(notes - 1, onsets, from)) yield [-1, ...rest];
  for (let onset = from; onset < onsets; onset++) {
    for (const rest of everyPairing(notes - 1, onsets, onset + 1)) yield [onset, ...rest];
  }
}

function changed(pairing: readonly number[], changes: RivalPairing["changes"]): number[] {
  const other = [...pairing];
  for (const [place, onset] of changes) other[place] = onset;
  return other;
}

describe("pairOnsets() against every pairing there is", () => {
  const score = plainScore({ silent: 0, accompanied: 6, phrases: 1, outro: 0 });
  const guide = guideOf(score);

  test("finds the likeliest: sum over pairs of ln(1 - missing) - ln(adding), ln(missing) over the others, and the filter's own likelihood", () => {
    for (let run = 0; run < 25; run++) {
      const chance = random(`every pairing ${run}`);
      const kept = guide.expected.filter(() => chance.uniform() > 0.15);
      const extra = Array.from({ length: chance.below(3) }, () => 3000 * chance.uniform());
      const at = Float64Array.from([...kept.map((each) => each - 20 + 30 * chance.normal()), ...extra]).sort();
      const worthOf = (pairing: readonly number[]): number => {
        const late = Float64Array.from(pairing, (onset, place) =>
          onset < 0 ? Number.NaN : at[onset]! - guide.expected[place]!,
        );
        const pairs = pairing.filter((onset) => onset >= 0).length;
        return (
          passOver(guide, late, noise, prior).logLikelihood +
          pairs * (Math.log(1 - missing) - logAdded) +
          (pairing.length - pairs) * Math.log(missing)
        );
      };
      let best = { value: Number.NEGATIVE_INFINITY, pairing: [] as number[] };
      for (const pairing of everyPairing(guide.expected.length, at.length)) {
        const value = worthOf(pairing);
        if (value > best.value) best = { value, pairing };
      }
      const found = pairOnsets(
        guide,
        { at, logAdded: new Float64Array(at.length).fill(logAdded) },
        { noise, prior, missing },
      );
      const own = [...found.onsets];
      const likely = [own, ...found.rivals.map(({ changes }) => changed(own, changes))];
      // Readings that meet go on as the one likelier so far: of two onsets 2 ms apart (run 22) the other may be likelier in the end, by 0.013.
      expect(best.value - worthOf(own), `run ${run}`).toBeLessThan(0.05);
      expect(likely, `run ${run}`).toContainEqual(best.pairing);
      if (run !== 22) expect(own, `run ${run}`).toEqual(best.pairing);
      expect(Math.abs(found.logLikelihood - worthOf(own))).toBeLessThan(1e-9 * Math.abs(best.value) + 1e-9);
      // A rival is another pairing: one to one, in order, and not likelier.
      for (const { logWeight, changes } of found.rivals) {
        const other = changed(own, changes);
        const paired = other.filter((onset) => onset >= 0);
        expect(other).not.toEqual(own);
        expect(paired).toEqual([...new Set(paired)].sort((a, b) => a - b));
        expect(logWeight).toBeLessThanOrEqual(0);
      }
    }
  });
});

describe("chancesAfter()", () => {
  test("is the mean of what is left of a beta belief worth 30 notes at 4 in 100, and the rate of additions likewise", () => {
    for (const [notes, missed, added] of [
      [0, 0, 0],
      [50, 0, 5],
      [100, 12, 0],
    ] as const) {
      // Mean of p^(a - 1) (1 - p)^(b - 1), a = 1.2 + missed, b = 28.8 + the rest, by the midpoint rule in t, p = t^2 to tame the end.
      const mean = (misses: number): number => {
        const [a, b] = [1.2 + misses, 28.8 + notes - misses];
        let [top, all] = [0, 0];
        for (let k = 0; k < 20_000; k++) {
          const p = ((k + 0.5) / 20_000) ** 2;
          const weight = p ** (a - 0.5) * (1 - p) ** (b - 1);
          all += weight;
          top += p * weight;
        }
        return top / all;
      };
      const found = chancesAfter({ notes, missed, added }, 10_000);
      expect(Math.abs(found.missing - mean(missed))).toBeLessThan(1e-6);
      expect(Math.abs(found.adding - (mean(added) * Math.max(1, notes)) / 10_000)).toBeLessThan(1e-6);
    }
  });
});
