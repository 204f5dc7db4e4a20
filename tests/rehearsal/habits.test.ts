import { describe, expect, test } from "vitest";
import { type Habits, PLAYERS, type Player, playTake } from "../../lib/rehearsal/index.js";
import { assess } from "../../lib/take/index.js";
import { FAULTLESS } from "../reference/players/grades.js";
import { landingLeftOut } from "../reference/players/habits/landings.js";
import { slip } from "../reference/players/habits/slips.js";
import { phaseCorrection } from "../reference/players/laws/index.js";
import { perform } from "../reference/players/perform.js";
import type { Habit } from "../reference/players/plan.js";
import { plainScore, timesOf } from "../take/scores.js";

const score = plainScore({ perBeat: 2 });
const exact: Player = { clockMs: 0, motorMs: 0, biasPercent: 0, correction: 0.3, offsetMs: 0, missing: 0, adding: 0 };
const timesBy = (habits: Habits, seed = "a"): number[] => timesOf(playTake(score, { ...exact, habits }, seed).take);
const timesOfReference = (habit: Habit): number[] =>
  timesOf(perform(score, { law: phaseCorrection, temper: FAULTLESS, habits: [habit] }, ["a"]).take);

const SIZES = [
  ["half a beat", 0.5],
  ["a beat", 1],
  ["a bar", 4],
] as const;

describe("habits of simulated players", () => {
  for (const [size, beats] of SIZES)
    for (const way of ["skips", "waits"] as const)
      for (const end of [1, 2, "kept"] as const) {
        if (size === "a bar" && way === "waits" && end === 1) continue;
        test(`a player who ${way} ${size} at each landing, ${end}, plays what the players written apart from the library play`, () => {
          const backAfterBars = end === "kept" ? null : end;
          const own = timesBy({ slips: { chance: 1, beats: [beats], at: "at the landing", backAfterBars, way } });
          const other = timesOfReference(slip({ way, size, place: "at the landing", end, often: "every" }));
          expect(own.length).toBe(other.length);
          const base = other[0]! - own[0]!;
          own.forEach((at, k) => void expect(at + base).toBeCloseTo(other[k]!, 6));
        });
      }

  test("landings left out are left out alone; the players written apart leave out the same, and join on the next beat", () => {
    const own = timesBy({ landingsLeftOut: 1 });
    expect(own.length).toBe(score.expected.length - score.dropouts.length);
    const other = timesOfReference(landingLeftOut("every"));
    const both = new Set(own.map((at) => at.toFixed(6)));
    const base = other[0]! - own[0]!;
    for (const at of other) expect(both.has((at - base).toFixed(6))).toBe(true);
    for (const { to } of score.dropouts) expect(both.has(to.toFixed(6))).toBe(false);
  });

  test("the same seed has the same habits; each is drawn by itself and moves nothing of the player's time", () => {
    const slips = { chance: 0.5, beats: [0.5, 1], at: "in the silence", backAfterBars: 1 } as const;
    expect(timesBy({ slips }, "x")).toEqual(timesBy({ slips }, "x"));
    expect(timesBy({ slips }, "x")).not.toEqual(timesBy({ slips }, "y"));
    const both = timesBy({ slips, landingsLeftOut: 0.5 }, "x");
    const alone = timesBy({ slips }, "x");
    expect(both.every((at) => alone.includes(at))).toBe(true);
    const plain = playTake(score, PLAYERS.able, "same").take;
    expect(playTake(score, { ...PLAYERS.able, habits: {} }, "same").take).toEqual(plain);
  });

  test("heavy tails: so many notes are so much wider", () => {
    const wide = { ...exact, motorMs: 10, correction: 0, habits: { heavyTails: { share: 0.1, times: 6 } } };
    let far = 0;
    let notes = 0;
    for (let seed = 0; seed < 40; seed++) {
      const { take, truth } = playTake(score, wide, seed);
      const times = timesOf(take);
      for (const [note, onset] of truth.pairs) {
        notes++;
        if (Math.abs(times[onset]! - score.expected[note]!.at) > 0.03) far++;
      }
    }
    // Beyond 3 SD of the usual hand: 0.1 × P(|z| > 0.5) = 0.0617, and 0.9 × 0.0027; the standard error of the share is 0.0034.
    expect(far / notes).toBeGreaterThan(0.064 - 0.014);
    expect(far / notes).toBeLessThan(0.064 + 0.014);
  });

  test("the truth has the slip, and assess() finds it beyond where the rhythm shows it", () => {
    const quarters = plainScore({ tolerance: { driftPercent: 6, landingMs: 90 } });
    const habits: Habits = { slips: { chance: 1, beats: [0.5], at: "at the landing", backAfterBars: 1, way: "waits" } };
    const { take, truth } = playTake(quarters, { ...PLAYERS.seasoned, habits }, "late");
    expect(truth.slipBeats).toEqual([0.5, 0.5, 0.5, 0.5]);
    for (const drift of truth.driftMs) expect(Math.abs(drift - 250)).toBeLessThan(120);
    expect(assess(quarters, take).verdict).toBe("beyond");
  });
});
