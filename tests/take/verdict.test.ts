import { describe, expect, test } from "vitest";
import { assess, shownProbability } from "../../lib/take/index.js";
import { SURE, verdictOf, verdictOverAll } from "../../lib/take/verdict.js";
import { driftsOf, plainScore, scatteredBy, slowerInSilence, takeOf } from "./scores.js";

describe("verdictOf()", () => {
  test("is within from SURE on, beyond up to the rest, and unclear between", () => {
    expect([SURE, 1, 0.95].map(verdictOf)).toEqual(["within", "within", "within"]);
    expect([1 - SURE, 0, 0.05].map(verdictOf)).toEqual(["beyond", "beyond", "beyond"]);
    expect([0.5, SURE - 1e-9, 1 - SURE + 1e-9].map(verdictOf)).toEqual(["unclear", "unclear", "unclear"]);
  });
});

describe("shownProbability()", () => {
  test("is left out where something else than it decided", () => {
    expect(shownProbability({ verdict: "within", probability: 0.97 })).toBe(0.97);
    expect(shownProbability({ verdict: "unclear", probability: 0.5 })).toBe(0.5);
    expect(shownProbability({ verdict: "unclear", probability: 0.98 })).toBeUndefined();
    expect(shownProbability({ verdict: "beyond", probability: 0.5 })).toBeUndefined();
    expect(shownProbability({ verdict: "unclear", probability: { unmeasured: "nothing was played" } })).toBeUndefined();
  });
});

describe("verdictOverAll()", () => {
  test("is beyond when any is, within when all are, unclear otherwise", () => {
    const all = ["within", "beyond", "unclear"] as const;
    for (const a of all) {
      for (const b of all) {
        const wanted =
          a === "beyond" || b === "beyond" ? "beyond" : a === "within" && b === "within" ? "within" : "unclear";
        expect(verdictOverAll([a, b])).toBe(wanted);
      }
    }
    expect(verdictOverAll([])).toBe("within");
  });
});

describe("the verdict of a take", () => {
  const score = plainScore();
  const slow = (share: number, seed: string) => scatteredBy(takeOf(score, slowerInSilence(score, share)), 6, seed);

  test("is within for a player in time, and beyond for one far outside, either way", () => {
    expect(assess(score, slow(0, "in time")).verdict).toBe("within");
    expect(assess(score, slow(0.06, "slow")).verdict).toBe("beyond");
    expect(assess(score, slow(-0.06, "fast")).verdict).toBe("beyond");
  });

  test("of a dropout follows from its drift, its error and the tolerance", () => {
    for (const share of [0, 0.01, 0.02, 0.025, 0.03, 0.05]) {
      const finding = assess(score, slow(share, `verdict ${share}`));
      driftsOf(finding).forEach(({ driftMs, standardErrorMs }, i) => {
        const { verdict, probability } = finding.dropouts[i]!;
        // 2.5 % of 2 s; a belief of one hump that lies two of its errors inside (or outside) is at least 97 % inside (outside).
        if (Math.abs(driftMs) + 2 * standardErrorMs < 50)
          expect([verdict, (probability as number) > 0.9]).toEqual(["within", true]);
        if (Math.abs(driftMs) - 2 * standardErrorMs > 50)
          expect([verdict, (probability as number) < 0.1]).toEqual(["beyond", true]);
        if (finding.reasons.length === 0) expect(verdict).toBe(verdictOf(probability as number));
      });
    }
  });

  test("at the very edge of the tolerance is unclear more often than not", () => {
    const found = [0.025, -0.025].flatMap((share) =>
      Array.from({ length: 8 }, (_, run) =>
        assess(score, slow(share, `edge ${run}`)).dropouts.map(({ verdict }) => verdict),
      ).flat(),
    );
    expect(found.filter((verdict) => verdict === "unclear").length).toBeGreaterThan(found.length / 2);
  });

  test("follows the tolerance in options instead of the score's own", () => {
    const take = slow(0.04, "options");
    expect(assess(score, take, { tolerance: { driftPercent: 20 } }).verdict).toBe("within");
    expect(assess(score, take, { tolerance: { driftPercent: 1 } }).verdict).toBe("beyond");
    expect(driftsOf(assess(score, take, { tolerance: { driftPercent: 1 } }))).toEqual(driftsOf(assess(score, take)));
  });

  test("follows the tighter of a tolerance in ms and one in per cent", () => {
    const take = slow(0.03, "tighter");
    expect(assess(score, take, { tolerance: { driftPercent: 10, driftMs: 20 } }).verdict).toBe("beyond");
    expect(assess(score, take, { tolerance: { driftPercent: 1, driftMs: 500 } }).verdict).toBe("beyond");
    expect(assess(score, take, { tolerance: { driftPercent: 10, driftMs: 500 } }).verdict).toBe("within");
  });

  test("judges the landing too where a tolerance for it is stated", () => {
    const take = slow(0.045, "landing");
    expect(assess(score, take, { tolerance: { driftPercent: 10 } }).verdict).toBe("within");
    expect(assess(score, take, { tolerance: { driftPercent: 10, landingMs: 40 } }).verdict).toBe("beyond");
    expect(assess(score, take, { tolerance: { driftPercent: 10, landingMs: 300 } }).verdict).toBe("within");
  });

  test("is within when no tolerance is stated at all: nothing is judged", () => {
    const finding = assess(score, slow(0.04, "none"), { tolerance: {} });
    expect([finding.verdict, finding.probability]).toEqual(["within", 1]);
  });
});
