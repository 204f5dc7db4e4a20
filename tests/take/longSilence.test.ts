import { describe, expect, test } from "vitest";
import type { Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { driftsOf, plainScore, scatteredBy, slowerInSilence, takeOf } from "./scores.js";

describe("a tempo far from the score's in a long silence", () => {
  // 10 % over 16 beats ends 1.6 beats off: every note lies nearest to a wrong place, and a player as even as this fits those places too.
  test.each([0.1, -0.1])("of %f is never within: 16 silent beats, 4 ms of deviation", (share) => {
    const score = plainScore({ accompanied: 16, silent: 16, phrases: 2 });
    for (let run = 0; run < 15; run++) {
      const finding = assess(
        score,
        scatteredBy(takeOf(score, slowerInSilence(score, share)), 4, `runaway ${share} ${run}`),
      );
      for (const { verdict, driftMs, standardErrorMs } of finding.dropouts) {
        expect(verdict, `run ${run}`).not.toBe("within");
        if (verdict === "unclear") continue;
        expect(Math.abs((driftMs as number) - 8000 * share)).toBeLessThan(4 * (standardErrorMs as number));
      }
    }
  });
});

describe("two silences that touch", () => {
  const one = plainScore({ phrases: 1, accompanied: 8, silent: 8, outro: 4 });
  const [dropout] = one.dropouts;
  const score: Score = {
    ...one,
    dropouts: [
      { ...dropout!, from: 4, to: 6, landing: null },
      { ...dropout!, from: 6, to: 8 },
    ],
  };

  test("each has its own drift: 4 % slow through 4-6 s and 6-8 s is 80 ms and 80 ms within their errors", () => {
    const errors: number[] = [];
    for (let run = 0; run < 12; run++) {
      const finding = assess(score, scatteredBy(takeOf(score, slowerInSilence(one, 0.04)), 6, `touching ${run}`));
      const drifts = driftsOf(finding);
      expect(drifts).toHaveLength(2);
      for (const { driftMs, standardErrorMs } of drifts) {
        expect(Math.abs(driftMs - 80)).toBeLessThan(3.5 * standardErrorMs);
        errors.push((driftMs - 80) / standardErrorMs);
      }
      expect(finding.dropouts[0]).toMatchObject({ landing: null, recoveryBeats: null });
    }
    // Were they independent and normal their mean square would stray by sqrt(2 / n) from 1; those of one take lean together.
    expect(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length).toBeLessThan(1 + 4 * Math.sqrt(2 / 12));
  });

  test("their drifts add up to that of one silence over both", () => {
    const take = scatteredBy(takeOf(score, slowerInSilence(one, 0.04)), 6, "sum");
    const [first, second] = driftsOf(assess(score, take));
    const [whole] = driftsOf(assess(one, take));
    // The walk is the same, but a new silence draws a new tempo bias: the sums agree within the errors.
    const sum = first!.driftMs + second!.driftMs;
    expect(Math.abs(sum - whole!.driftMs)).toBeLessThan(Math.hypot(first!.standardErrorMs, second!.standardErrorMs));
  });
});
