import { describe, expect, test } from "vitest";
import { PLAYERS, playTake } from "../../lib/rehearsal/index.js";
import { assess } from "../../lib/take/index.js";
import { driftsOf, movedBy, plainScore, scatteredBy, takeOf } from "./scores.js";

describe("a constant shift of the whole take", () => {
  test.each(["seasoned", "able"] as const)("of up to 60 ms moves no drift of a(n) %s player by 1 ms", (grade) => {
    for (const perBeat of [1, 2]) {
      for (let run = 0; run < 6; run++) {
        const score = plainScore({ perBeat, beat: 0.45 + 0.05 * run, silent: [2, 4, 8][run % 3]! });
        const player = { ...PLAYERS[grade], missing: 0, adding: 0 };
        const { take } = playTake(score, player, `shift ${grade} ${perBeat} ${run}`);
        const drifts = driftsOf(assess(score, take));
        for (const by of [-0.06, -0.025, 0.04, 0.06]) {
          driftsOf(assess(score, movedBy(take, by))).forEach(({ driftMs }, index) => {
            expect(Math.abs(driftMs - drifts[index]!.driftMs), `run ${run}, moved by ${by} s`).toBeLessThan(1);
          });
        }
      }
    }
  });

  test("shows up in the offset, and nowhere else", () => {
    const score = plainScore();
    const take = scatteredBy(takeOf(score), 8, "offset");
    const found = assess(score, take);
    const moved = assess(score, movedBy(take, 0.05));
    // The prior of the offset, 400 ms wide, holds back less than a thousandth of the shift; figures are rounded to 0.01 ms.
    expect((moved.offsetMs as number) - (found.offsetMs as number)).toBeGreaterThan(50 * 0.998 - 0.02);
    expect((moved.offsetMs as number) - (found.offsetMs as number)).toBeLessThan(50 + 0.02);
    expect(moved.pairs).toEqual(found.pairs);
  });
});

describe("the zero of a take", () => {
  const score = plainScore();
  const take = scatteredBy(takeOf(score), 10, "zero");

  test("count-in and bar-1 differ by the length of the count-in, exactly", () => {
    // 2 s of count-in and multiples of 2^-10 s, so that adding it rounds nothing.
    const exact = { ...take, onsets: take.onsets.map((at) => Math.round((at as number) * 1024) / 1024) };
    const fromCountIn = { ...movedBy(exact, score.countIn), zero: "count-in" as const };
    expect(assess(score, fromCountIn)).toEqual(assess(score, exact));
  });

  test("is the count-in when the take does not say", () => {
    const { zero: _, ...silent } = movedBy(take, score.countIn);
    expect(assess(score, silent)).toEqual(assess(score, { ...silent, zero: "count-in" }));
  });

  test("a given latency is taken off the onsets", () => {
    const told = { ...take, latencyMs: 0 };
    const late = { ...movedBy(take, 0.15), latencyMs: 150 };
    const [one, other] = [assess(score, told), assess(score, late)];
    expect(other.pairs).toEqual(one.pairs);
    // Both are the same up to the rounding of 0.15 s in binary, and of findings to 0.01 ms.
    expect(Math.abs((other.offsetMs as number) - (one.offsetMs as number))).toBeLessThanOrEqual(0.011);
    driftsOf(other).forEach(({ driftMs }, i) => {
      expect(Math.abs(driftMs - driftsOf(one)[i]!.driftMs)).toBeLessThanOrEqual(0.011);
    });
  });

  test("a latency far beyond the offset of any player is found again when it is told", () => {
    const late = { ...movedBy(take, 1.2), latencyMs: 1200 };
    expect(assess(score, late).missed).toEqual([]);
  });
});
