import { describe, expect, test } from "vitest";
import { type Player, playTake } from "../../lib/rehearsal/index.js";
import { settledVariance } from "../../lib/take/state/space.js";
import { plainScore, timesOf } from "../take/scores.js";
import { near, printed } from "./published.js";

// Vorberg & Schulze 2002, J. Math. Psychol. 46, 56-87 (formula from memory; derived and simulated again for this table):
// A(n+1) = (1 - a) A(n) + clock + M(n+1) - M(n) has variance clock^2 / (a (2 - a)) + 2 motor^2 / (2 - a).
const ROWS = [
  [10, 5, 0.3, 225.490196, 6],
  [10, 10, 0.618034, 261.803399, 4],
  [20, 8, 0.5, 618.666667, 6],
] as const;

const accompanied = (beats: number) => plainScore({ silent: 0, accompanied: beats, phrases: 1, outro: 0 });
const player = (clockMs: number, motorMs: number, correction: number): Player => ({
  clockMs,
  motorMs,
  correction,
  biasPercent: 0,
  offsetMs: 0,
  missing: 0,
  adding: 0,
});

/** Asynchronies in ms of a long take of quarter notes with the accompaniment. */
function asynchronies(who: Player, notes: number, seed: string): number[] {
  const score = accompanied(notes);
  const { take, truth } = playTake(score, who, seed);
  const times = timesOf(take);
  // Onsets may overtake each other on paper; the truth says which is which.
  return truth.pairs.map(([note, onset]) => 1000 * (times[onset]! - score.expected[note]!.at));
}

describe("linear phase correction: the simulated player while accompanied", () => {
  test.each(ROWS)(
    "clock %f, motor %f, correction %f: asynchronies have variance %f",
    (clock, motor, a, variance, digits) => {
      near(clock ** 2 / (a * (2 - a)) + (2 * motor ** 2) / (2 - a), variance, printed(digits));
      const n = 40_000;
      const late = asynchronies(player(clock, motor, a), n, `phase correction ${clock} ${motor}`);
      const found = late.reduce((sum, each) => sum + each ** 2, 0) / n;
      // The mean is 0 by construction. Sampling error of a variance (Bartlett): n var = 2 sum over all lags of autocovariance squared. The
      // autocovariance at lag 1 is (1 - a) v - motor^2, and (1 - a) times the one before from there on.
      const first = (1 - a) * variance - motor ** 2;
      const squares = variance ** 2 + (2 * first ** 2) / (1 - (1 - a) ** 2);
      near(found, variance, 4 * Math.sqrt((2 * squares) / n));
      const product = late.slice(1).reduce((sum, each, i) => sum + each * late[i]!, 0) / n;
      near(product, first, 4 * Math.sqrt((2 * squares) / n));
    },
  );

  test.each(ROWS)(
    "clock %f, motor %f, correction %f: the variance holds from the first note on, no running-in",
    (clock, motor, a, variance) => {
      const runs = 4000;
      const square = (countIn: number, note: number): number => {
        const score = { ...accompanied(4), countIn };
        let sum = 0;
        for (let run = 0; run < runs; run++) {
          const { take } = playTake(score, player(clock, motor, a), `first notes ${clock} ${run}`);
          sum += (1000 * (timesOf(take)[note]! - score.expected[note]!.at)) ** 2;
        }
        return sum / runs;
      };
      near(square(0, 0), variance, 4 * variance * Math.sqrt(2 / runs));
      near(square(0, 3), variance, 4 * variance * Math.sqrt(2 / runs));
      // Four beats of count-in are heard but not played, so that no motor delay is taken for an asynchrony and the motor part fades.
      const faded = clock ** 2 / (a * (2 - a)) + motor ** 2 + ((1 - a) ** 8 * a * motor ** 2) / (2 - a);
      near(square(2, 0), faded, 4 * faded * Math.sqrt(2 / runs));
    },
  );

  test.each(ROWS)(
    "clock %f, motor %f, correction %f: the time model's own settled variance is that less the note's motor delay",
    (clock, motor, a, variance) => {
      near(settledVariance({ clock, motor, correction: a, bias: 0 }) + motor ** 2, variance, 1e-4);
    },
  );

  // Gains with the least variance: a* = (-r + sqrt(r^2 + 4 r)) / 2 with r = (clock / motor)^2 (derived and computed for this table).
  test.each([
    [0.25, 0.390388],
    [1, 0.618034],
    [4, 0.828427],
    [9, 0.908327],
    [25, 0.962912],
  ])("with clock variance %f times the motor's, correction %f varies least", (ratio, best) => {
    const deviation = (correction: number): number =>
      settledVariance({ clock: Math.sqrt(ratio), motor: 1, correction, bias: 0 }) + 1;
    expect(deviation(best)).toBeLessThan(deviation(best + 0.002));
    expect(deviation(best)).toBeLessThan(deviation(best - 0.002));
    near(best, (-ratio + Math.sqrt(ratio ** 2 + 4 * ratio)) / 2, printed(6));
  });

  test("without correction the asynchrony wanders off, so the rows above can fail", () => {
    const late = asynchronies(player(10, 5, 0), 4000, "no correction");
    expect(late.reduce((sum, each) => sum + each ** 2, 0) / late.length).toBeGreaterThan(2 * 225);
  });
});
