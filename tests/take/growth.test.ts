import { describe, expect, test } from "vitest";
import { PLAYERS, playTake } from "../../lib/rehearsal/index.js";
import { playedOnsets } from "../../lib/take/onsets.js";
import { guideOf } from "../../lib/take/state/guide.js";
import { pairOnsets } from "../../lib/take/state/pairing.js";
import { MATERIALS, materialScore } from "../bench/material.js";

/** How often a pairing weighs an onset against a note, counted, not timed. */
function weighings(phrases: number, grade: keyof typeof PLAYERS, material: (typeof MATERIALS)[number]): number {
  const score = materialScore(material, { bpm: 100, silentBeats: 4, tolerancePercent: 2.5, phrases });
  const { take } = playTake(score, PLAYERS[grade], `growth ${phrases}`);
  const played = playedOnsets(score, take);
  let count = 0;
  const evidence = (): number => {
    count++;
    return 0;
  };
  const logAdded = new Float64Array(played.at.length).fill(Math.log(1e-4));
  pairOnsets(
    guideOf(score),
    { at: played.at, logAdded, evidence },
    { noise: { clock: 20, motor: 22, bias: 0.03, correction: 0.36 }, prior: { mean: -25, sd: 60 }, missing: 0.04 },
  );
  return count;
}

describe("pairOnsets()", () => {
  test.each(["seasoned", "novice", "wild"] as const)(
    "weighs at most 12 times as many pairs in 10 times the phrases, for a(n) %s player",
    (grade) => {
      for (const material of MATERIALS) {
        const few = weighings(4, grade, material);
        const many = weighings(40, grade, material);
        expect(few).toBeGreaterThan(0);
        expect(many / few, material.name).toBeLessThanOrEqual(12);
      }
    },
  );
});
