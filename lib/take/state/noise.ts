/** The noise parameters of the state space. */
export interface Noise {
  /** Standard deviation of the clock, ms per square root of a beat. */
  readonly clock: number;
  /** Standard deviation of the motor delay (and of the recording), ms per note. */
  readonly motor: number;
  /** Standard deviation of the tempo bias in a silence, as a ratio of tempo. */
  readonly bias: number;
  /** Standard deviation that the tempo bias gathers in a beat, as a share of its own; 0, a constant bias, when left out. */
  readonly wander?: number;
  /** Share of an asynchrony taken back on each beat that sounds. */
  readonly correction: number;
}

/**
 * Prior of the noise of a player before the first note: log-normal.
 *
 * Median and standard deviation: motor SD 5-12 ms and nearly independent of tempo, interval SD 3-5 % of 500 ms with the clock its larger part
 * (Wing 1980; Ivry & Hazeltine 1995: from memory); players of drills range from a fifth to four times that, hence the standard deviations (our choice).
 */
export const PRIOR = {
  /** Median motor SD, ms, and the SD of its logarithm. */
  motor: 14,
  motorSd: 0.8,
  /** Median ratio of clock (per beat) to motor, and the SD of its logarithm. */
  clockToMotor: 0.9,
  clockSd: 0.4,
  /** Median tempo bias for each ms of clock SD, and the SD of its logarithm: 20 ms of clock go with about 2.5 % of tempo. */
  biasPerClock: 0.00125,
  biasSd: 0.45,
  /** What the tempo bias gathers in a beat, as a share of its own SD: over 16 beats as much as it had (our choice: players turn, speed up and lurch). */
  wander: 0.25,
  /** Phase correction per beat: 0.2-0.6 is usual for adults (Repp, Keller & Jacoby 2012 for its rise with the interval; range from memory). */
  correction: 0.36,
} as const;

/** The three logarithms a take is fitted by: of the geometric mean of clock and motor, of their ratio, of the bias for each ms of clock. */
export type NoisePoint = readonly [logLevel: number, logRatio: number, logBias: number];

// Onsets are known to a millisecond at best, and rounding to one leaves 1 / sqrt(12) ms. Without this, a take without noise would be fitted by
// none, and variances of the prior would be taken from each other that differ by less than a rounding error.
const RESOLUTION_MS = 1 / Math.sqrt(12);

/** The noise at a point; the rounding of onset times and `floorMs`, timing noise of the recording itself, are added to the motor part. */
export function noiseAt([logLevel, logRatio, logBias]: NoisePoint, floorMs: number): Noise {
  const clock = Math.exp(logLevel + logRatio / 2);
  return {
    clock,
    motor: Math.hypot(Math.exp(logLevel - logRatio / 2), floorMs, RESOLUTION_MS),
    bias: clock * Math.exp(logBias),
    wander: PRIOR.wander,
    correction: PRIOR.correction,
  };
}

/** Variance of the tempo bias that a silence adds in each millisecond. */
export function wanderPerMs({ bias, wander = 0 }: Noise, beatMs: number): number {
  return (bias * wander) ** 2 / beatMs;
}

/** Logarithm of the prior density at a point, up to a constant. */
export function logPrior([logLevel, logRatio, logBias]: NoisePoint): number {
  const z = (value: number, median: number, sd: number): number => ((value - Math.log(median)) / sd) ** 2;
  return (
    -0.5 *
    (z(logLevel - logRatio / 2, PRIOR.motor, PRIOR.motorSd) +
      z(logRatio, PRIOR.clockToMotor, PRIOR.clockSd) +
      z(logBias, PRIOR.biasPerClock, PRIOR.biasSd))
  );
}

/** The point of the prior's medians at a given level (geometric mean of clock and motor, ms). */
export function pointAtLevel(levelMs: number): NoisePoint {
  return [Math.log(levelMs), Math.log(PRIOR.clockToMotor), Math.log(PRIOR.biasPerClock)];
}
