import { type Random, random } from "../../lib/base/index.js";
import { type PlayedTruth, type Player, playTake } from "../../lib/rehearsal/index.js";
import type { OpenStretch, Score, Take } from "../../lib/schema/index.js";
import { passOver } from "../../lib/take/state/filter.js";
import { guideOf } from "../../lib/take/state/guide.js";
import { plainScore } from "./scores.js";

/** Where a bar of four beats may be played, in beats. */
export const GRIDS = {
  even: Array.from({ length: 16 }, (_, place) => place / 4),
  swung: [0, 2 / 3, 1, 5 / 3, 2, 8 / 3, 3, 11 / 3],
} as const;

/** Eighths whose fourth bar is silent and open, on the grid named. */
export function openScore(grid: keyof typeof GRIDS, phrases = 4): Score {
  const written = plainScore({ perBeat: 2, phrases });
  const open = written.dropouts.map(
    ({ from, to }): OpenStretch => ({
      from,
      to,
      bars: [],
      scale: "D dorian",
      pitchClasses: [2, 4, 5, 7, 9, 11, 0],
      subdivision: written.beat / (grid === "even" ? 4 : 2),
      grid: GRIDS[grid].map((beats) => from + beats * written.beat),
    }),
  );
  const inside = (at: number): boolean => open.some(({ from, to }) => at >= from - 1e-6 && at < to - 1e-6);
  return { ...written, expected: written.expected.filter(({ at }) => !inside(at)), open };
}

export interface Improvisation {
  readonly take: Take;
  readonly truth: PlayedTruth;
  /** Drift in each open stretch by a smoother told which subdivision each note was on and what the player's noise is, ms. */
  readonly told: Float64Array;
}

/** A take of an open score by a player who picks `fewest` or more of the subdivisions of each open bar. */
export function improvise(
  score: Score,
  player: Player,
  { seed, fewest = 6 }: { seed: string; fewest?: number },
): Improvisation {
  const chance = random(seed);
  const taken = score.open.flatMap(({ grid }) => picked(grid!, fewest + chance.below(5), chance));
  const notes = taken.map((at) => ({ position: "0", at, part: "lead", bar: 0 }));
  const expected = [...score.expected, ...notes].sort((a, b) => a.at - b.at);
  const full: Score = { ...score, expected, open: [] };
  const { take, truth } = playTake(full, player, `${seed}/take`);
  const late = new Float64Array(expected.length).fill(Number.NaN);
  for (const [note, onset] of truth.pairs)
    late[note] = 1000 * ((take.onsets[onset] as { at: number }).at - expected[note]!.at);
  const noise = {
    clock: player.clockMs,
    motor: player.motorMs,
    bias: player.biasPercent / 100,
    correction: player.correction,
  };
  const told = passOver(guideOf(full), late, noise, { mean: player.offsetMs, sd: 100 }).drift;
  return { take, truth, told };
}

function picked(grid: readonly number[], count: number, chance: Random): number[] {
  return grid
    .map((at) => ({ at, key: chance.uniform() }))
    .sort((a, b) => a.key - b.key)
    .slice(0, count)
    .map(({ at }) => at);
}
