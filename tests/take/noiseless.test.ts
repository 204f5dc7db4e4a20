import { describe, expect, test } from "vitest";
import type { Score, Take } from "../../lib/schema/index.js";
import { assess, follow, traceTake } from "../../lib/take/index.js";
import { MATERIALS, materialScore } from "../bench/material.js";
import { plainScore } from "./scores.js";

const SCORES: readonly [string, Score][] = [
  ["quarters", plainScore()],
  ["eighths", plainScore({ perBeat: 2 })],
  ["a silence of 16 beats", plainScore({ silent: 16, accompanied: 16 })],
  ["no silence", plainScore({ silent: 0 })],
  ...MATERIALS.map((material): [string, Score] => [
    material.name,
    materialScore(material, { bpm: 76, silentBeats: 4, tolerancePercent: 2.5 }),
  ]),
];

const movedBy = (score: Score, ms: number): Take => ({
  zero: "bar-1",
  onsets: score.expected.map(({ at }) => at + ms / 1000),
});

describe.each(SCORES)("a take without noise (%s)", (_, score) => {
  test.each([0, 20, -15, -35, 137])(
    "off by %d ms on every note: its trace is that constant, and known to a millisecond",
    (ms) => {
      const trace = traceTake(score, movedBy(score, ms));
      expect(trace.length).toBeGreaterThanOrEqual(score.expected.length);
      for (const { asynchronyMs, sdMs } of trace) {
        // Noise of 1 / sqrt(12) ms and no less is assumed, and the prior's pull of 400 ms on so many exact notes is far below that.
        expect(Math.abs(asynchronyMs - ms)).toBeLessThan(0.01);
        expect(sdMs).toBeGreaterThan(0);
        expect(sdMs).toBeLessThan(0.3);
      }
    },
  );

  test("is within, with no drift, by assess() and by follow()", () => {
    const take = movedBy(score, 20);
    const finding = assess(score, take);
    expect(finding.verdict).toBe("within");
    expect(finding.reasons).toEqual([]);
    expect(finding.offsetMs).toBeCloseTo(20, 1);
    for (const { driftMs, standardErrorMs } of finding.dropouts) {
      expect(Math.abs(driftMs as number)).toBeLessThan(0.01);
      expect(standardErrorMs).toBeGreaterThan(0);
      expect(standardErrorMs).toBeLessThan(1);
    }
    const follower = follow(score, { zero: "bar-1" });
    for (const onset of take.onsets) expect(Number.isFinite(follower.play(onset).asynchronyMs)).toBe(true);
    const { provisional } = follower.now(score.duration + 10);
    expect(provisional.map(({ verdict }) => verdict)).toEqual(finding.dropouts.map(() => "within"));
  });
});
