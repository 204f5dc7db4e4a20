import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { PLAYERS, type Player, playTake } from "../../lib/rehearsal/index.js";
import { checkTake } from "../../lib/schema/index.js";
import { plainScore, timesOf } from "../take/scores.js";

const score = plainScore({ perBeat: 2 });
const grade = fc.constantFrom(...(Object.keys(PLAYERS) as (keyof typeof PLAYERS)[]));
const silent: Player = { clockMs: 0, motorMs: 0, biasPercent: 0, correction: 0.3, offsetMs: 0, missing: 0, adding: 0 };

describe("playTake()", () => {
  test("gives the same take for the same seed, and another for another", () => {
    fc.assert(
      fc.property(grade, fc.string(), (name, seed) => {
        const once = playTake(score, PLAYERS[name], seed);
        expect(playTake(score, PLAYERS[name], seed)).toEqual(once);
        expect(playTake(score, PLAYERS[name], `${seed}'`)).not.toEqual(once);
      }),
      { numRuns: 30 },
    );
  });

  test("gives a take of the published schema, in order of time, counted from bar 1", () => {
    fc.assert(
      fc.property(grade, fc.nat(), (name, seed) => {
        const { take } = playTake(score, PLAYERS[name], seed);
        expect(checkTake(take)).toMatchObject({ ok: true });
        expect(take.zero).toBe("bar-1");
        const times = timesOf(take);
        expect(times).toEqual([...times].sort((a, b) => a - b));
      }),
      { numRuns: 50 },
    );
  });

  test("keeps the books: each note and each onset in one pair at most, notes in order, one drift and one bias a dropout", () => {
    fc.assert(
      fc.property(grade, fc.nat(), (name, seed) => {
        const { take, truth } = playTake(score, PLAYERS[name], seed);
        const notes = truth.pairs.map(([note]) => note);
        const onsets = truth.pairs.map(([, onset]) => onset);
        expect(notes).toEqual([...new Set(notes)].sort((a, b) => a - b));
        expect(new Set(onsets).size).toBe(onsets.length);
        for (const note of notes) expect(note).toBeLessThan(score.expected.length);
        for (const onset of onsets) expect(onset).toBeLessThan(take.onsets.length);
        expect([truth.driftMs.length, truth.biasPercent.length]).toEqual([
          score.dropouts.length,
          score.dropouts.length,
        ]);
      }),
      { numRuns: 50 },
    );
  });

  test("without noise plays every note at its place, moved by the constant offset, and does not drift", () => {
    const { take, truth } = playTake(score, { ...silent, offsetMs: -37 }, 1);
    timesOf(take).forEach((at, onset) => {
      expect(at).toBeCloseTo(score.expected[onset]!.at - 0.037, 9);
    });
    expect(truth.driftMs).toEqual(score.dropouts.map(() => 0));
    expect(truth.pairs).toEqual(score.expected.map((_, i) => [i, i]));
  });

  test("with a tempo bias alone drifts by exactly that share of each silence, and lands there", () => {
    const { take, truth } = playTake(score, { ...silent, biasPercent: 2 }, "bias");
    score.dropouts.forEach(({ from, to }, index) => {
      expect(truth.driftMs[index]!).toBeCloseTo((truth.biasPercent[index]! / 100) * 1000 * (to - from), 6);
      const landing = score.expected.findIndex(({ at }) => Math.abs(at - to) < 1e-9);
      const leaving = score.expected.findIndex(({ at }) => Math.abs(at - from) < 1e-9);
      const late = (note: number): number => 1000 * (timesOf(take)[note]! - score.expected[note]!.at);
      expect(late(landing) - late(leaving)).toBeCloseTo(truth.driftMs[index]!, 6);
    });
  });

  test("draws no tempo bias where something still sounds", () => {
    const heard = { ...score, dropouts: score.dropouts.map((each) => ({ ...each, silent: false })) };
    expect(playTake(heard, { ...silent, biasPercent: 5 }, "heard").truth.biasPercent).toEqual(
      score.dropouts.map(() => 0),
    );
  });

  test("leaves out and adds notes at the stated rates, within four standard errors of a share", () => {
    const long = plainScore({ perBeat: 4, phrases: 30 });
    const n = long.expected.length;
    const { take, truth } = playTake(long, { ...silent, missing: 0.1, adding: 0.05 }, "rates");
    expect(Math.abs(1 - truth.pairs.length / n - 0.1)).toBeLessThan(4 * Math.sqrt((0.1 * 0.9) / n));
    expect(Math.abs((take.onsets.length - truth.pairs.length) / n - 0.05)).toBeLessThan(
      4 * Math.sqrt((0.05 * 0.95) / n),
    );
  });

  test("plays an empty score without a note", () => {
    const empty = { ...score, expected: [], dropouts: [] };
    expect(playTake(empty, PLAYERS.able, 1)).toEqual({
      take: { version: 1, onsets: [], zero: "bar-1" },
      truth: { pairs: [], driftMs: [], slipBeats: [], biasPercent: [] },
    });
  });
});
