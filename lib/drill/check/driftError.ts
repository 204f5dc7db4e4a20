import { type Milliseconds, milliseconds } from "../../base/index.js";

/** Timing noise of a player: clock and motor noise. */
export interface PlayerNoise {
  /** Clock noise: standard deviation of the phase over one beat. It grows with the square root of time. */
  readonly clock: Milliseconds;
  /** Motor noise: standard deviation of each note about the clock. It does not grow. */
  readonly motor: Milliseconds;
}

/**
 * Noise of a seasoned player: clock 5 ms per square root of a beat, motor 6 ms. Our choice, at the steady end of what is reported (motor
 * 5 to 12 ms, from memory; total about 2 % of the interval in musicians, from memory: Repp 2005), so that a tolerance is refused only
 * when no player's takes could show that it is kept.
 */
export const SEASONED_PLAYER: PlayerNoise = { clock: milliseconds(5), motor: milliseconds(6) };

/** The expected notes by which drift in a silence is measured. */
export interface DriftEvidence {
  /** When each expected note falls, in beats after the silence begins, ascending; the one on the downbeat of landing included. */
  readonly onsets: readonly number[];
  /** Length of the silence in beats. */
  readonly beats: number;
  readonly noise?: PlayerNoise;
}

/**
 * Smallest standard error of the drift over a silence, in milliseconds.
 *
 * Model: the player's phase is a random walk (clock noise), observed with motor noise. At the start its variance is the steady state
 * after many notes, one to a beat. A Kalman filter (Kalman 1960) over the notes follows the pair of phase at the start and phase now;
 * the error is that of their difference at the end. Without onsets nothing is measured, and the error is the standard deviation of the
 * walk, `clock * sqrt(beats)`.
 *
 * Throws `RangeError` unless onsets ascend within the silence.
 *
 * @example
 * driftError({ onsets: [], beats: 4 }); // 10
 */
export function driftError({ onsets, beats, noise = SEASONED_PLAYER }: DriftEvidence): Milliseconds {
  const walk = noise.clock ** 2;
  const motor = noise.motor ** 2;
  let start = settledVariance(walk, motor);
  let shared = start;
  let now = start;
  let last = 0;
  for (const onset of onsets) {
    if (!(onset >= last && onset <= beats))
      throw new RangeError(`onsets ascend from 0 to ${beats} beats, got ${onset} after ${last}`);
    now += walk * (onset - last);
    last = onset;
    const seen = now + motor;
    start -= shared ** 2 / seen;
    shared -= (shared * now) / seen;
    now -= now ** 2 / seen;
  }
  now += walk * (beats - last);
  return milliseconds(Math.sqrt(Math.max(0, start - 2 * shared + now)));
}

/** Variance of the phase after many notes, one to a beat: the steady state of the filter above. */
function settledVariance(walk: number, motor: number): number {
  const before = (walk + Math.sqrt(walk ** 2 + 4 * walk * motor)) / 2;
  return (before * motor) / (before + motor);
}
