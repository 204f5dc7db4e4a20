import { describe, expect, test } from "vitest";
import { normalBelow } from "../../lib/take/metrics/normal.js";
import { confusionIn } from "../../lib/take/reasons/confusion.js";
import { passOver } from "../../lib/take/state/filter.js";
import { guideOf } from "../../lib/take/state/guide.js";
import type { Noise } from "../../lib/take/state/noise.js";
import type { Reading } from "../../lib/take/state/reading.js";
import { plainScore } from "./scores.js";

/** What confusionIn() looks at: the guide and the likeliest noise. */
function readingWith(score: ReturnType<typeof plainScore>, noise: Noise): Reading {
  const guide = guideOf(score);
  const nothing = new Float64Array(score.expected.length).fill(Number.NaN);
  const passed = passOver(guide, nothing, noise, { mean: 0, sd: 10 });
  return { guide, fit: { points: [{ weight: 1, noise, passed }] } } as unknown as Reading;
}

/** The steady prediction variance of a random walk seen through noise, found by repeating predict and update until it stays. */
function steadyPrediction(q: number, r: number): number {
  let p = q + r;
  for (let i = 0; i < 100_000; i++) p = q + (p * r) / (p + r);
  return p;
}

describe("confusionIn()", () => {
  test.each([
    [20, 22, 4],
    [40, 44, 4],
    [5, 6, 2],
    [60, 10, 3],
  ])(
    "clock %i, motor %i, %i notes a beat: twice the tail beyond half the gap, at the steady state of the Riccati equation",
    (clock, motor, perBeat) => {
      const score = plainScore({ perBeat });
      const found = confusionIn(score, readingWith(score, { clock, motor, bias: 0, correction: 0.36 }), false);
      const predicted = steadyPrediction(clock ** 2 / perBeat, motor ** 2);
      const wanted = 2 * normalBelow(-500 / perBeat / 2 / Math.sqrt(predicted + motor ** 2));
      expect(found).toHaveLength(score.dropouts.length);
      for (const share of found) expect(Math.abs(share - wanted)).toBeLessThan(1e-9);
    },
  );

  test("is 0 for a stretch without notes", () => {
    const score = plainScore({ phrases: 1 });
    const { from, to } = score.dropouts[0]!;
    const bare = { ...score, expected: score.expected.filter(({ at }) => at < from || at > to) };
    expect(confusionIn(bare, readingWith(bare, { clock: 40, motor: 44, bias: 0, correction: 0.36 }), false)).toEqual([
      0,
    ]);
  });

  test("grows with the player's noise, and falls when neighbours differ in a pitch the take knows", () => {
    const score = plainScore({ perBeat: 4 });
    const of = (level: number): number =>
      confusionIn(score, readingWith(score, { clock: level, motor: level, bias: 0, correction: 0.36 }), false)[0]!;
    expect(of(10)).toBeLessThan(of(20));
    expect(of(20)).toBeLessThan(of(40));
    const pitched = {
      ...score,
      expected: score.expected.map((note, i) => ({ ...note, pitch: i % 2 === 0 ? "D4" : "A4" })),
    };
    const reading = readingWith(pitched, { clock: 40, motor: 40, bias: 0, correction: 0.36 });
    expect(confusionIn(pitched, reading, true)[0]!).toBeLessThan(confusionIn(pitched, reading, false)[0]!);
  });
});
