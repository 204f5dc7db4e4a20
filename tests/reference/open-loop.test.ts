import { describe, test } from "vitest";
import { type Player, playTake } from "../../lib/rehearsal/index.js";
import { passOver } from "../../lib/take/state/filter.js";
import { guideOf } from "../../lib/take/state/guide.js";
import { plainScore, timesOf } from "../take/scores.js";
import { near, printed } from "./published.js";

// Time error n beats after the last heard one: variance n clock^2 + 2 motor^2 + n^2 (variance of the tempo bias): computed for this table
// from the model of Wing & Kristofferson 1973 (formula from memory).
const BEATS = [1, 2, 4, 6, 8, 16];
const ROWS = [
  { clock: 20, motor: 8, deviations: [22.98, 30.46, 41.57, 50.28, 57.69, 80.8] },
  { clock: 10, motor: 5, deviations: [12.25, 15.81, 21.21, 25.5, 29.15, 40.62] },
] as const;
const RUNS = 3000;
const score = plainScore({ phrases: 1, accompanied: 4, silent: 16, outro: 1 });
const BEAT_MS = 1000 * score.beat;

const player = (clockMs: number, motorMs: number, biasPercent: number): Player => ({
  clockMs,
  motorMs,
  biasPercent,
  correction: 0.4,
  offsetMs: 0,
  missing: 0,
  adding: 0,
});

/** Per take, lateness of each note of the silence against the note on its first instant, ms, and the truth. */
function runsOf(who: Player): { late: number[]; driftMs: number; biasPercent: number }[] {
  return Array.from({ length: RUNS }, (_, run) => {
    const { take, truth } = playTake(score, who, `open loop ${who.clockMs} ${who.biasPercent} ${run}`);
    const times = timesOf(take);
    const at = truth.pairs.map(([note, onset]) => 1000 * (times[onset]! - score.expected[note]!.at));
    return {
      late: BEATS.map((n) => at[4 + n]! - at[4]!),
      driftMs: truth.driftMs[0]!,
      biasPercent: truth.biasPercent[0]!,
    };
  });
}

const variance = (values: readonly number[]): number =>
  values.reduce((sum, each) => sum + each ** 2, 0) / values.length;
/** Four times the sampling error of the variance of so many independent normal values whose mean is known. */
const allowed = (wanted: number): number => 4 * wanted * Math.sqrt(2 / RUNS);

describe("the simulated player in a silence, n beats after the last heard one", () => {
  test.each(ROWS)(
    "clock $clock, motor $motor: the time error has the tabled deviations and grows by the clock alone",
    ({ clock, motor, deviations }) => {
      const runs = runsOf(player(clock, motor, 0));
      BEATS.forEach((n, i) => {
        const wanted = n * clock ** 2 + 2 * motor ** 2;
        near(Math.sqrt(wanted), deviations[i]!, printed(2));
        near(variance(runs.map(({ late }) => late[i]!)), wanted, allowed(wanted));
      });
      // The true drift has no motor part: it is where the clock is, not the hand.
      near(variance(runs.map(({ driftMs }) => driftMs)), 16 * clock ** 2, allowed(16 * clock ** 2));
    },
  );

  test.each([1.2, 3])("a tempo bias of %f per cent adds the square of the beats: n^2 (bias beat)^2", (bias) => {
    const runs = runsOf(player(10, 5, bias));
    near(variance(runs.map(({ biasPercent }) => biasPercent)), bias ** 2, allowed(bias ** 2));
    BEATS.forEach((n, i) => {
      const wanted = n * 100 + 50 + (n * (bias / 100) * BEAT_MS) ** 2;
      near(variance(runs.map(({ late }) => late[i]!)), wanted, allowed(wanted));
    });
  });

  test.each(ROWS)(
    "clock $clock, motor $motor: the time model expects the same growth before it hears a note of the silence",
    ({ clock, motor, deviations }) => {
      BEATS.forEach((n, i) => {
        const alone = plainScore({ phrases: 1, accompanied: 4, silent: n, outro: 1 });
        const nothing = new Float64Array(alone.expected.length).fill(Number.NaN);
        const noise = { clock, motor, bias: 0.01, correction: 0.4 };
        const { driftVariance } = passOver(guideOf(alone), nothing, noise, { mean: 0, sd: 50 });
        const bias = (n * 0.01 * BEAT_MS) ** 2;
        near(Math.sqrt(driftVariance[0]! - bias + 2 * motor ** 2), deviations[i]!, printed(2));
      });
    },
  );
});

// Tempo error that a drift of d ms after h beats of T ms means: 100 d / (h T) % (arithmetic, computed for this table).
test.each([
  [30, 4, 600, 1.25, 98.7654],
  [50, 8, 500, 1.25, 118.5185],
])("%i ms after %i beats of %i ms is %f per cent of tempo, %f bpm", (drift, beats, beatMs, percent, bpm) => {
  near((100 * drift) / (beats * beatMs), percent, 1e-12);
  near(60_000 / (beatMs * (1 + percent / 100)), bpm, printed(4));
});
