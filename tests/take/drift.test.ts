import { describe, expect, test } from "vitest";
import { assess } from "../../lib/take/index.js";
import { driftsOf, plainScore, scatteredBy, slowerInSilence, takeOf, timesOf } from "./scores.js";

const RUNS = 8;

/** How far the drifts lie from what was put in, in standard errors, over several takes of one and two notes a beat. */
function errorsOf(share: number, sdMs: number): number[] {
  const errors: number[] = [];
  for (const perBeat of [1, 2]) {
    const score = plainScore({ perBeat });
    for (let run = 0; run < RUNS; run++) {
      const take = scatteredBy(takeOf(score, slowerInSilence(score, share)), sdMs, `${share} ${perBeat} ${run}`);
      driftsOf(assess(score, take)).forEach(({ driftMs, standardErrorMs }, index) => {
        const { from, to } = score.dropouts[index]!;
        errors.push((driftMs - 1000 * share * (to - from)) / standardErrorMs);
      });
    }
  }
  return errors;
}

describe("drift", () => {
  test("of a perfect take is 0 within its standard error, and within the tolerance", () => {
    const score = plainScore();
    const finding = assess(score, takeOf(score));
    for (const { driftMs, standardErrorMs } of driftsOf(finding)) {
      expect(Math.abs(driftMs)).toBeLessThanOrEqual(Math.max(0.01, standardErrorMs));
    }
    expect(finding.verdict).toBe("within");
    expect([finding.missed, finding.added]).toEqual([[], []]);
  });

  test.each([0.01, 0.02, 0.04, -0.01, -0.02, -0.04])(
    "of a take slowed by %f in the silences is found within its error",
    (share) => {
      const errors = errorsOf(share, 8);
      const squares = errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length;
      // Were the errors independent and normal with their stated standard error, this mean would be 1 and stray by sqrt(2 / n). The same bias in
      // every silence of a take makes them lean together, at worst all those of one take: n = takes.
      expect(squares).toBeLessThan(1 + 4 * Math.sqrt(2 / (2 * RUNS)));
    },
  );

  test.each([0.02, 0.04])(
    "is positive when the player slows by %f and negative when the player hurries as much",
    (share) => {
      const score = plainScore();
      const found = (sign: number): number[] =>
        driftsOf(assess(score, scatteredBy(takeOf(score, slowerInSilence(score, sign * share)), 6, "sign"))).map(
          ({ driftPercent }) => driftPercent,
        );
      for (const percent of found(1)) expect(percent).toBeGreaterThan(0);
      for (const percent of found(-1)) expect(percent).toBeLessThan(0);
    },
  );

  test("in per cent is the drift in ms over the length of the silence", () => {
    const score = plainScore({ silent: 6, accompanied: 10 });
    const take = scatteredBy(takeOf(score, slowerInSilence(score, 0.03)), 6, "per cent");
    for (const { driftMs, driftPercent } of driftsOf(assess(score, take))) {
      // Rounded to 0.01 ms of 3,000 and to 0.001 %.
      expect(Math.abs(driftPercent - driftMs / 30)).toBeLessThanOrEqual(0.0005 + 0.005 / 30 + 1e-9);
    }
  });

  test("is followed beyond half a beat, where the nearest beat is a wrong one", () => {
    // 16 beats alone at 4.5 % slow end 0.72 beats late.
    const score = plainScore({ accompanied: 16, silent: 16, phrases: 2, tolerance: { driftPercent: 2.5 } });
    const take = scatteredBy(takeOf(score, slowerInSilence(score, 0.045)), 8, "far");
    const finding = assess(score, take);
    for (const { driftMs, standardErrorMs } of driftsOf(finding)) {
      expect(Math.abs(driftMs - 360)).toBeLessThan(4 * standardErrorMs + 1);
    }
    expect(finding.verdict).toBe("beyond");
  });

  test("of the last silence is found without a landing, from the notes inside it", () => {
    const score = plainScore({ outro: 0, phrases: 1, silent: 8 });
    const take = scatteredBy(takeOf(score, slowerInSilence(score, 0.04)), 6, "no landing");
    const [dropout] = assess(score, take).dropouts;
    expect(dropout!.landing).toBe(null);
    expect(dropout!.recoveryBeats).toBe(null);
    expect(Math.abs((dropout!.driftMs as number) - 160)).toBeLessThan(3 * (dropout!.standardErrorMs as number));
  });

  test("has a larger standard error when notes of the silence are left out", () => {
    const score = plainScore({ perBeat: 2 });
    const full = scatteredBy(takeOf(score), 10, "left out");
    const { from, to } = score.dropouts[0]!;
    const sparse = { ...full, onsets: timesOf(full).filter((at, i) => !(at > from && at < to - 0.1) || i % 4 === 0) };
    expect(driftsOf(assess(score, sparse))[0]!.standardErrorMs).toBeGreaterThan(
      driftsOf(assess(score, full))[0]!.standardErrorMs,
    );
  });
});
