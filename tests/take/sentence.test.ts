import { describe, expect, test } from "vitest";
import type { DropoutFinding, Finding, Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { sentenceOf } from "../../lib/take/sentence.js";
import { silenceLength } from "../../lib/take/silenceLength.js";
import { plainScore, scatteredBy, slowerInSilence, takeOf } from "./scores.js";

const score = plainScore({ phrases: 2, tolerance: { driftPercent: 2.5 } });

const dropout = (driftMs: number, verdict: Finding["verdict"], landingMs = driftMs): DropoutFinding => ({
  from: 6,
  to: 8,
  driftMs,
  driftPercent: driftMs / 20,
  standardErrorMs: 8,
  landing: { ms: landingMs, standardErrorMs: 3 },
  recoveryBeats: 0,
  verdict,
  probability: 0.5,
});
function told(
  dropouts: DropoutFinding[],
  verdict: Finding["verdict"],
  more: Partial<Finding> = {},
  of: Score = score,
): string {
  const steadiness = { accompaniedMs: 14.4, aloneMs: 15, clockMs: 10, motorMs: 8, verdict, probability: 0.5 } as const;
  const body = {
    version: 1 as const,
    verdict,
    probability: 0.5,
    reasons: [],
    pairs: [],
    missed: [],
    added: [],
    offsetMs: -21.3,
    dropouts,
    openBars: [],
    steadiness,
  };
  return sentenceOf(of, { ...body, ...more }).says;
}

describe("the sentence of a finding", () => {
  test.each([
    [
      "rushing",
      [dropout(-61.6, "beyond"), dropout(12, "within")],
      "beyond",
      "You rushed: 62 ms early after one bar of silence, about 3.1 % fast.",
    ],
    [
      "dragging",
      [dropout(12, "within"), dropout(74.2, "beyond")],
      "beyond",
      "You dragged: 74 ms late after one bar of silence, about 3.7 % slow.",
    ],
    [
      "within",
      [dropout(12, "within"), dropout(-18.4, "within")],
      "within",
      "In time: at most 18 ms early after one bar of silence, about 0.9 % fast.",
    ],
    [
      "unclear",
      [dropout(44, "unclear"), dropout(-60, "within")],
      "unclear",
      "Too close to call: 44 ms late after one bar of silence, about 2.2 % slow; whether that is inside the limits this take cannot tell.",
    ],
    [
      "a missed downbeat",
      [dropout(2, "beyond", 95)],
      "beyond",
      "You kept the tempo but missed the downbeat: 95 ms late after one bar of silence.",
    ],
  ] as const)("tells %s with its sign in words", (_, dropouts, verdict, sentence) => {
    expect(told([...dropouts], verdict)).toBe(sentence);
  });

  test("gives the reason first when the whole take cannot be judged", () => {
    const reasons = [{ code: "NOTHING_PLAYED", says: "Nothing was played." }];
    expect(told([dropout(10, "unclear")], "unclear", { reasons })).toBe("Nothing was played.");
  });

  test("says why when no dropout could be measured", () => {
    const none = { unmeasured: "no expected note was played in this silence or on its landing" };
    const silent: DropoutFinding = {
      ...dropout(0, "unclear"),
      driftMs: none,
      driftPercent: none,
      standardErrorMs: none,
    };
    expect(told([silent], "unclear")).toBe(
      "This take cannot be judged: no expected note was played in this silence or on its landing.",
    );
  });

  test.each([
    ["within", "Steady: on average 21 ms early, and about 14 ms either way from note to note (limit 20 ms)."],
    ["beyond", "Not steady yet: on average 21 ms early, and about 14 ms either way from note to note (limit 20 ms)."],
    [
      "unclear",
      "Too close to call: on average 21 ms early, and about 14 ms either way from note to note (limit 20 ms).",
    ],
  ] as const)("of a steady drill that is %s tells the steadiness", (verdict, sentence) => {
    expect(told([], verdict, {}, plainScore({ silent: 0, tolerance: { steadinessMs: 20 } }))).toBe(sentence);
  });

  test("of a steady drill without a tolerance tells the steadiness and judges nothing", () => {
    expect(told([], "within", {}, plainScore({ silent: 0, tolerance: {} }))).toBe(
      "With the band: on average 21 ms early, and about 14 ms either way from note to note.",
    );
  });

  test("of real takes names the direction the player went", () => {
    const of = (share: number): string =>
      assess(score, scatteredBy(takeOf(score, slowerInSilence(score, share)), 6, "sentence")).sentence;
    expect(of(-0.06)).toMatch(/^You rushed: \d+ ms early after one bar of silence, about [\d.]+ % fast\.$/);
    expect(of(0.06)).toMatch(/^You dragged: \d+ ms late after one bar of silence, about [\d.]+ % slow\.$/);
    expect(of(0)).toMatch(/^In time: at most \d+ ms (early|late) after one bar of silence/);
  });

  test("uses no mark, no star and no word of praise or blame", () => {
    for (const share of [-0.06, -0.02, 0, 0.03, 0.06]) {
      const { sentence } = assess(
        score,
        scatteredBy(takeOf(score, slowerInSilence(score, share)), 10, `words ${share}`),
      );
      expect(sentence).not.toMatch(/perfect|great|good|bad|miss\b|fail|star|point|score|\/ ?100/i);
    }
  });
});

describe("silenceLength()", () => {
  test.each([
    [2, "half a bar"],
    [4, "one bar"],
    [6, "1 1/2 bars"],
    [8, "2 bars"],
    [10, "2 1/2 bars"],
    [3, "3 beats"],
    [1, "one beat"],
  ])("of %i beats of 4/4 is %s", (silent, words) => {
    expect(silenceLength(plainScore({ silent, accompanied: 16 - silent }), 0)).toBe(words);
  });

  test("falls back to beats when the score names no bars", () => {
    expect(silenceLength({ ...score, bars: [] }, 0)).toBe("4 beats");
  });
});
