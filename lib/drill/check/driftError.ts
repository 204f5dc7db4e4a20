import { type Milliseconds, milliseconds } from "../../base/index.js";

/** How a player's time wanders and jitters. */
export interface PlayerNoise {
  /** Standard deviation of the inner clock over one beat; it grows with the square root of time. */
  readonly clock: Milliseconds;
  /** Standard deviation of each note about the clock; it does not grow. */
  readonly motor: Milliseconds;
}

/**
 * A seasoned player: 5 ms per square root of a beat, 6 ms. Our choice, at the steady end of what is reported (motor 5 to 12 ms, from
 * memory; total about 2 % of the interval in musicians, from memory: Repp 2005), so that a tolerance is refused only when no
 * player could be shown to keep it.
 */
export const SEASONED_PLAYER: PlayerNoise = { clock: milliseconds(5), motor: milliseconds(6) };

/** The notes by which drift in a silence is measured. */
export interface DriftEvidence {
  /** When each expected note falls, in beats after the silence begins, ascending; the one on the downbeat of re-entry included. */
  readonly onsets: readonly number[];
  /** Length of the silence in beats. */
  readonly beats: number;
  readonly noise?: PlayerNoise;
}

/**
 * The standard error with which the drift over a silence can be known at best, in milliseconds.
 *
 * The player's phase is a random walk (clock) seen through jitter (motor), known at the start as well as a note on every beat tells
 * in the long run. Filtered note by note (Kalman 1960) for the pair of phase at the start and phase now; the error is that of their
 * difference at the end. Without onsets it is the spread of the walk itself, `clock * sqrt(beats)`: nothing is measured.
 *
 * Throws `RangeError` unless onsets ascend within the silence.
 *
 * @example
 * driftError({ onsets: [], beats: 4 }); // 10
 */
export function driftError({ onsets, beats, noise = SEASONED_PLAYER }: DriftEvidence): Milliseconds {
  const walk = noise.clock ** 2;
  const jitter = noise.motor ** 2;
  let start = settledVariance(walk, jitter);
  let shared = start;
  let now = start;
  let last = 0;
  for (const onset of onsets) {
    if (!(onset >= last && onset <= beats))
      throw new RangeError(`onsets ascend from 0 to ${beats} beats, got ${onset} after ${last}`);
    now += walk * (onset - last);
    last = onset;
    const seen = now + jitter;
    start -= shared ** 2 / seen;
    shared -= (shared * now) / seen;
    now -= now ** 2 / seen;
  }
  now += walk * (beats - last);
  return milliseconds(Math.sqrt(Math.max(0, start - 2 * shared + now)));
}

/** The variance of the phase after many notes, one a beat: the fixed point of the filter above. */
function settledVariance(walk: number, jitter: number): number {
  const before = (walk + Math.sqrt(walk ** 2 + 4 * walk * jitter)) / 2;
  return (before * jitter) / (before + jitter);
}
