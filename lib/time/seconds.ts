import { divide, type Fraction, type Seconds, seconds, toNumber } from "../base/index.js";
import type { Pace } from "./model.js";
import { swungPosition } from "./swing.js";

/**
 * Time of a position, in seconds from position 0, with swing: position / beat * 60 / tempo. Notes of tuplets are even: a score says when they sound.
 *
 * @example secondsAt(fraction.of(1), { tempo: fraction.of(96), beat: fraction.of(1, 4) }) // 2.5
 */
export function secondsAt(position: Fraction, pace: Pace): Seconds {
  return secondsOf(swungPosition(position, pace.swing, pace.bars), pace);
}

/**
 * Duration in seconds of a length in whole notes, without swing.
 *
 * @example
 * secondsOf(fraction.of(1), { tempo: fraction.of(96), beat: fraction.of(1, 4) }) // 2.5
 */
export function secondsOf(length: Fraction, pace: Pace): Seconds {
  const beats = toNumber(divide(length, pace.beat));
  return seconds((beats * 60 * pace.tempo.d) / pace.tempo.n);
}

/** The position in whole notes, without swing, at `time` seconds from position 0: the inverse of `secondsOf`. */
export function wholeNotesIn(time: Seconds, pace: Pace): number {
  return (time * toNumber(pace.tempo) * toNumber(pace.beat)) / 60;
}
