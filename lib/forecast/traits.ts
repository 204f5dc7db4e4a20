/**
 * What makes one player's time differ from another's. All but `tempo` are logarithms (`lapse` a log odds), so that they may be taken as
 * normally distributed among players.
 */
export interface Traits {
  /** Motor noise at present, ms a note: ln. */
  readonly motor: number;
  /** Clock noise per square root of a beat, for each ms of motor noise: ln. */
  readonly clock: number;
  /** Spread of the tempo from silence to silence, as a ratio of tempo, for each ms of clock noise: ln. */
  readonly bias: number;
  /** Usual tempo error in a silence at `MIDDLE_BEAT_MS` a beat, as a ratio: positive drags, negative rushes. */
  readonly tempo: number;
  /** By how much that error changes when the beat is e times as long. */
  readonly pull: number;
  /** Noise that practice can still take away, as a share of what will stay: ln. */
  readonly excess: number;
  /** Share of that excess taken away by one take: ln of the rate. */
  readonly rate: number;
  /** Chance that a take goes astray for reasons of its own: ln of the odds. */
  readonly lapse: number;
  /** Motor noise before the first take, as `motor`. */
  readonly first: number;
}
export type Trait = keyof Traits;

export interface Spread {
  readonly mean: number;
  readonly sd: number;
}

/** How traits are spread among players, and by how much (log odds) forecasts of clean takes must be shifted for them. */
export interface Population {
  readonly motor: Spread;
  readonly clock: Spread;
  readonly bias: Spread;
  readonly tempo: Spread;
  readonly pull: Spread;
  readonly excess: Spread;
  readonly rate: Spread;
  readonly lapse: Spread;
  readonly shift: Spread;
}

/**
 * Players of whom nothing is known. Motor, clock and bias: the spread assessing assumes (lib/take/noise.ts: motor SD 5-12 ms, clock the
 * larger part of an interval SD of 3-5 %, Wing 1980 and Ivry & Hazeltine 1995, from memory). Tempo: people speed up when the beat
 * stops (Flach 2005, abstract read), by how much is our choice. Pull: short beats come out shorter and long ones longer, or the other way
 * round, by some per cent from person to person (Stevens 1886, whose two players differ); either way is as likely. Practice: exponential (Heathcote, Brown & Mewhort 2000, abstract read);
 * its size, its rate (e-fold in 30 takes) and the lapses are our choice, wide enough that a dozen takes outweigh them.
 */
export const ANYBODY: Population = {
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

/** The beat at which `tempo` is the tempo error, milliseconds: our choice, 120 a minute. */
export const MIDDLE_BEAT_MS = 500;
