import type { Unmeasured } from "../../lib/schema/index.js";
import { autocovariance, detrended } from "./autocorrelation.js";

/** The two sources of deviation in a row of intervals. */
export interface ClockAndMotor {
  /** Standard deviation of the timekeeper, milliseconds per interval. */
  readonly clockMs: number;
  /** Standard deviation of the motor delay, milliseconds per note. */
  readonly motorMs: number;
  /** Lag-1 autocorrelation of the intervals, -0.5 to 0. */
  readonly lagOne: number;
}

export interface SplitOptions {
  /** What is taken out of the intervals first: their mean, or the straight line through them when the tempo drifted. */
  readonly around?: "mean" | "line";
}

// Fewest intervals that are split: with 12 the motor variance comes out a fifth too large already (VALUES section 1.2). Our choice.
const FEWEST_INTERVALS = 8;

/**
 * Splits the deviation of unguided intervals between a clock and a motor delay, by moments.
 *
 * Interval = clock + motor delay of its end - motor delay of its start, so that g(0) = clock^2 + 2 motor^2 and g(1) = -motor^2, g the
 * autocovariance divided by n: Wing & Kristofferson 1973, Percept. Psychophys. 14, 5-12 (from memory; checked by simulation). Intervals in
 * milliseconds, in the order played. Unmeasured when they are too few, when neighbours do not alternate at all (g(1) > 0), or when they
 * alternate more than motor delays can make them (lag-1 autocorrelation below -1/2). Throws `RangeError` for an interval that is not a
 * finite number.
 *
 * @example
 * wingKristofferson([510, 492, 496, 484, 502, 494, 512, 496, 510, 504]); // { clockMs: 6.75..., motorMs: 3.84..., lagOne: -0.19... }
 */
export function wingKristofferson(
  intervals: readonly number[],
  options: SplitOptions = {},
): ClockAndMotor | Unmeasured {
  const strange = intervals.findIndex((interval) => !Number.isFinite(interval));
  if (strange >= 0) throw new RangeError(`interval ${strange} is not a finite number of milliseconds`);
  if (intervals.length < FEWEST_INTERVALS) {
    return {
      unmeasured: `${intervals.length} intervals are too few to tell a clock from a hand: ${FEWEST_INTERVALS} are needed`,
    };
  }
  const series = options.around === "line" ? detrended(intervals) : intervals;
  const whole = autocovariance(series, 0);
  if (whole === 0) return { clockMs: 0, motorMs: 0, lagOne: 0 };
  const next = autocovariance(series, 1);
  const lagOne = next / whole;
  if (next > 0) {
    return {
      unmeasured: `neighbouring intervals go together (lag-1 autocorrelation ${lagOne.toFixed(2)}), as when the tempo drifts`,
    };
  }
  const clock = whole + 2 * next;
  if (clock < 0) {
    return {
      unmeasured: `intervals alternate more than motor delays can make them (lag-1 autocorrelation ${lagOne.toFixed(2)}, at least -0.5 is possible)`,
    };
  }
  // `+ 0` keeps -0 out of a finding.
  return { clockMs: Math.sqrt(clock), motorMs: Math.sqrt(0 - next), lagOne: lagOne + 0 };
}
