import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { assess } from "../../lib/take/index.js";
import { plainScore, scatteredBy, slowerInSilence, takeOf } from "./scores.js";

const steady = plainScore({ silent: 0, accompanied: 32, outro: 0, tolerance: { steadinessMs: 20 } });
const reason = { unmeasured: expect.stringMatching(/\S/) };

describe("steadiness", () => {
  test("while accompanied is the standard deviation of the notes around their mean, in ms", () => {
    const take = scatteredBy(
      takeOf(steady, (at) => at + 0.03),
      12,
      "spread",
    );
    const late = take.onsets.map((at, i) => 1000 * ((at as number) - steady.expected[i]!.at));
    const mean = late.reduce((sum, each) => sum + each, 0) / late.length;
    const sd = Math.sqrt(late.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (late.length - 1));
    const { steadiness, pairs } = assess(steady, take);
    expect(pairs).toHaveLength(steady.expected.length);
    expect(Math.abs((steadiness.accompaniedMs as number) - sd)).toBeLessThanOrEqual(0.005 + 1e-9);
  });

  test("alone is the deviation around a straight line through each silence: constant drift does not count", () => {
    const score = plainScore({ accompanied: 8, silent: 8 });
    const even = assess(score, scatteredBy(takeOf(score), 6, "alone")).steadiness.aloneMs as number;
    const drifting = assess(score, scatteredBy(takeOf(score, slowerInSilence(score, 0.03)), 6, "alone")).steadiness
      .aloneMs as number;
    expect(even).toBeGreaterThan(0);
    expect(Math.abs(drifting - even)).toBeLessThan(0.02);
  });

  test("is judged against its tolerance: within, unclear and beyond as the deviation grows", () => {
    const verdictsAt = (deviation: number): string[] =>
      Array.from({ length: 20 }, (_, run) => {
        const { steadiness, verdict } = assess(steady, scatteredBy(takeOf(steady), deviation, `verdicts ${run}`));
        expect(verdict).toBe(steadiness.verdict);
        return verdict;
      });
    expect(new Set(verdictsAt(8))).toEqual(new Set(["within"]));
    expect(new Set(verdictsAt(45))).toEqual(new Set(["beyond"]));
    // On the limit itself some takes come out on one side of it by chance: 11 of 60 seeds.
    expect(verdictsAt(20).filter((verdict) => verdict === "unclear").length).toBeGreaterThan(20 / 2);
  });

  test("the logarithm of a sample standard deviation of n normal values has variance 1 / (2 (n - 1)), on which its probability rests", () => {
    const chance = random("logarithms");
    const n = 40;
    const runs = 20_000;
    const logs = Array.from({ length: runs }, () => {
      const values = Array.from({ length: n }, () => chance.normal());
      const mean = values.reduce((sum, each) => sum + each, 0) / n;
      return Math.log(values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (n - 1)) / 2;
    });
    const mean = logs.reduce((sum, each) => sum + each, 0) / runs;
    const variance = logs.reduce((sum, each) => sum + (each - mean) ** 2, 0) / runs;
    // The next term of the expansion is 1 / (2 (n - 1)^2), 1 / (n - 1) of it; sampling error of a variance: sqrt(2 / runs), three times.
    expect(Math.abs(variance * 2 * (n - 1) - 1)).toBeLessThan(1 / (n - 1) + 3 * Math.sqrt(2 / runs));
  });

  test("is not judged without a tolerance", () => {
    const { steadiness } = assess(plainScore(), scatteredBy(takeOf(plainScore()), 40, "unjudged"));
    expect([steadiness.verdict, steadiness.probability]).toEqual(["within", 1]);
  });

  test("is unmeasured with a reason when too few notes were played", () => {
    const { steadiness } = assess(steady, { onsets: [0.01, 0.52, 1.02], zero: "bar-1" });
    expect(steadiness).toMatchObject({
      accompaniedMs: reason,
      aloneMs: reason,
      clockMs: reason,
      motorMs: reason,
      probability: reason,
    });
    expect(steadiness.verdict).toBe("unclear");
  });

  test("never has a negative clock or motor part", () => {
    for (const deviation of [0.5, 5, 25]) {
      for (let run = 0; run < 5; run++) {
        const score = plainScore();
        const { clockMs, motorMs } = assess(score, scatteredBy(takeOf(score), deviation, `parts ${run}`)).steadiness;
        for (const part of [clockMs, motorMs]) if (typeof part === "number") expect(part).toBeGreaterThanOrEqual(0);
      }
    }
  });
});
