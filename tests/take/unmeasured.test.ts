import { describe, expect, test } from "vitest";
import { checkFinding, type Finding } from "../../lib/schema/index.js";
import { assess, REASONS } from "../../lib/take/index.js";
import { plainScore, scatteredBy, takeOf, timesOf } from "./scores.js";

const score = plainScore();
const reason = { unmeasured: expect.stringMatching(/\S/), message: expect.anything() };

function expectNothingMeasured(finding: Finding): void {
  expect(finding.verdict).toBe("unclear");
  expect(finding.probability).toEqual(reason);
  expect(finding.sentence).not.toBe("");
  for (const dropout of finding.dropouts) {
    expect(dropout).toMatchObject({
      driftMs: reason,
      driftPercent: reason,
      standardErrorMs: reason,
      verdict: "unclear",
      probability: reason,
    });
  }
  expect(finding.steadiness).toMatchObject({
    accompaniedMs: reason,
    aloneMs: reason,
    clockMs: reason,
    motorMs: reason,
  });
  expect(checkFinding(finding)).toMatchObject({ ok: true });
}

describe("assess() of a take that shows too little", () => {
  test("an empty take is a finding: everything missed, everything unmeasured with a reason, unclear", () => {
    const finding = assess(score, { onsets: [] });
    expectNothingMeasured(finding);
    expect(finding.offsetMs).toEqual(reason);
    expect(finding.pairs).toEqual([]);
    expect(finding.missed).toEqual(score.expected.map((_, i) => i));
    expect(finding.reasons.map(({ code }) => code)).toEqual(["NOTHING_PLAYED"]);
  });

  test("one note is too little for any verdict", () => {
    const finding = assess(score, { onsets: [0.02], zero: "bar-1" });
    expectNothingMeasured(finding);
    expect(finding.pairs).toEqual([[0, 0]]);
    expect(finding.reasons.map(({ code }) => code)).toContain("TOO_LITTLE_PLAYED");
  });

  test("a take with additions only pairs nothing and lists each of them", () => {
    const finding = assess(score, { onsets: [100, 101.3, 5000], zero: "bar-1" });
    expectNothingMeasured(finding);
    expect(finding.offsetMs).toEqual(reason);
    expect([finding.pairs, finding.added]).toEqual([[], [0, 1, 2]]);
  });

  test("a score without expected notes is assessed too", () => {
    const bare = { ...score, expected: [] };
    for (const onsets of [[], timesOf(takeOf(score))]) {
      const finding = assess(bare, { onsets, zero: "bar-1" });
      expectNothingMeasured(finding);
      expect(finding.added).toHaveLength(onsets.length);
    }
  });

  test("a steady drill with nothing played is unclear, not within", () => {
    const steady = plainScore({ silent: 0, tolerance: { steadinessMs: 20 } });
    expect(assess(steady, { onsets: [] }).verdict).toBe("unclear");
    expect(assess(steady, { onsets: [] }).steadiness.verdict).toBe("unclear");
  });

  test("every reason has a documented code and a sentence", () => {
    for (const onsets of [[], [0.02], [100]]) {
      for (const { code, says } of assess(score, { onsets, zero: "bar-1" }).reasons) {
        expect(Object.keys(REASONS)).toContain(code);
        expect(says).toMatch(/^[A-Z].*[.?]$/);
      }
    }
  });
});

describe("a dropout in which nothing was played", () => {
  const full = scatteredBy(takeOf(score), 8, "nothing in it");
  const { from, to } = score.dropouts[1]!;
  const silentThere = { ...full, onsets: timesOf(full).filter((at) => at < from - 0.1 || at > to + 0.1) };
  const finding = assess(score, silentThere);

  test("is unmeasured with a reason, not 0, and unclear", () => {
    expect(finding.dropouts[1]).toMatchObject({
      driftMs: reason,
      driftPercent: reason,
      standardErrorMs: reason,
      probability: reason,
      verdict: "unclear",
    });
  });

  test("is not taken for another rate: no note of it says so", () => {
    expect(finding.reasons.map(({ code }) => code)).not.toContain("HALF_RATE");
  });

  test("leaves the other dropouts measured", () => {
    for (const index of [0, 2, 3]) expect(finding.dropouts[index]!.driftMs).toEqual(expect.any(Number));
    expect(finding.dropouts[0]!.verdict).toBe("within");
  });

  test("makes the take unclear, but not better than beyond when another dropout is", () => {
    expect(finding.verdict).toBe("unclear");
    expect(finding.probability).toEqual(reason);
  });

  test("is measured when only the note of its landing was played, which is still unguided", () => {
    const landed = { ...full, onsets: timesOf(full).filter((at) => at < from + 0.1 || at > to - 0.1) };
    const [, dropout] = assess(score, landed).dropouts;
    expect(dropout!.driftMs).toEqual(expect.any(Number));
  });
});

describe("landing", () => {
  test("is null when the accompaniment does not return", () => {
    const open = plainScore({ outro: 0 });
    const { dropouts } = assess(open, scatteredBy(takeOf(open), 8, "no return"));
    expect(dropouts.at(-1)).toMatchObject({ landing: null, recoveryBeats: null });
    expect(dropouts[0]!.landing).toHaveProperty("ms");
  });

  test("is how far the first note at or after it lay from the player's own place", () => {
    const take = scatteredBy(
      takeOf(score, (at) => at + 0.03),
      8,
      "landing",
    );
    const { dropouts, offsetMs, pairs } = assess(score, take);
    dropouts.forEach(({ to, landing }) => {
      const [note, onset] = pairs.find(([each]) => score.expected[each]!.at > to - 1e-6)!;
      const late = 1000 * (timesOf(take)[onset]! - score.expected[note]!.at);
      // Both figures are rounded to 0.01 ms.
      expect(Math.abs((landing as { readonly ms: number }).ms - (late - (offsetMs as number)))).toBeLessThanOrEqual(
        0.011,
      );
    });
  });

  test("is left out when nothing was played within four beats of it", () => {
    const { to } = score.dropouts[0]!;
    const full = scatteredBy(takeOf(score), 8, "late back");
    const gone = { ...full, onsets: timesOf(full).filter((at) => at < to - 0.1 || at > to + 5 * score.beat - 0.1) };
    expect(assess(score, gone).dropouts[0]).toMatchObject({ landing: { leftOut: true }, recoveryBeats: reason });
  });
});
