/**
 * Parameters in which one player's time differs from another's. All but `tempo` and `pull` are logarithms (`lapse` a log odds), so that
 * all may be taken as normally distributed among players.
 */
export interface Traits {
  /** Motor noise at present, ms a note: ln. */
  readonly motor: number;
  /** Clock noise per square root of a beat, for each ms of motor noise: ln. */
  readonly clock: number;
  /** Normal of the tempo from silence to silence, as a ratio of tempo, for each ms of clock noise: ln. */
  readonly bias: number;
  /** Usual tempo error in a silence at `MIDDLE_BEAT_MS` a beat, as a ratio: positive drags, negative rushes. */
  readonly tempo: number;
  /** By how much that error changes when the beat is e times as long. */
  readonly pull: number;
  /** Noise that practice can still take away, as a share of what will stay: ln. */
  readonly excess: number;
  /** Learning rate, the share of that excess taken away by one take: ln. */
  readonly rate: number;
  /** Chance that a take goes astray for reasons of its own: ln of the odds. */
  readonly lapse: number;
  /** Motor noise before the first take, as `motor`. */
  readonly first: number;
  /** The form of the day: how far `motor` is above the usual today. */
  readonly form: number;
}
export type Trait = keyof Traits;

/** Mean and standard deviation of a trait. */
export interface Normal {
  readonly mean: number;
  readonly sd: number;
}

/** The beat at which `tempo` is the tempo error, milliseconds: our choice, 120 a minute. */
export const MIDDLE_BEAT_MS = 500;
