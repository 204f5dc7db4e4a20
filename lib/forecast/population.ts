import type { Normal } from "./traits.js";

/** Distribution of traits among players, and of the log-odds shift of their forecasts. The prior of a player. */
export interface Population {
  readonly motor: Normal;
  readonly clock: Normal;
  readonly bias: Normal;
  readonly tempo: Normal;
  readonly pull: Normal;
  readonly excess: Normal;
  readonly rate: Normal;
  readonly lapse: Normal;
  readonly shift: Normal;
}

/**
 * Players of whom nothing is known. Motor, clock and bias: the standard deviations assessing assumes (lib/take/state/noise.ts: motor SD 5-12 ms, clock the
 * larger part of an interval SD of 3-5 %, Wing 1980 and Ivry & Hazeltine 1995, from memory). Tempo: people speed up when the beat
 * stops (Flach 2005, abstract read); by how much is our choice. Pull: short beats come out shorter and long ones longer, or the other way
 * round, by some per cent from person to person (Stevens 1886, whose two players differ); either way is as likely. Practice: exponential
 * (Heathcote, Brown & Mewhort 2000, abstract read); its size, its rate (e-fold in 30 takes) and the lapses are our choice, wide enough that
 * a dozen takes outweigh them.
 */
export const DEFAULT_POPULATION: Population = {
  motor: { mean: Math.log(14), sd: 0.8 },
  clock: { mean: Math.log(0.9), sd: 0.4 },
  bias: { mean: Math.log(0.00125), sd: 0.45 },
  tempo: { mean: -0.005, sd: 0.015 },
  pull: { mean: 0, sd: 0.04 },
  excess: { mean: Math.log(0.4), sd: 0.7 },
  rate: { mean: Math.log(1 / 30), sd: 0.7 },
  lapse: { mean: -3.5, sd: 1 },
  shift: { mean: 0, sd: 0.5 },
};
