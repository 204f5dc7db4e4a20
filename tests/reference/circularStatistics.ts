import type { Measure } from "../../lib/schema/index.js";
import { normalBelow } from "../../lib/take/metrics/normal.js";

/** Where a set of angles points, and how closely they agree. */
export interface Bearing {
  /** Mean direction, radians, from -pi to pi; unmeasured when the angles cancel out. */
  readonly direction: Measure;
  /** Mean resultant length R: 0 when the angles cancel out, 1 when all are the same. */
  readonly resultant: number;
}

/** A test of angles against "any direction is as likely as any other". */
export interface DirectionTest {
  /** The test statistic: z = n R^2 of Rayleigh's test, u of the V test. */
  readonly statistic: number;
  /** Chance of a statistic at least as large when every direction is equally likely. */
  readonly p: number;
}

// A resultant below this is rounding: each sine and cosine is off by at most 2^-53, and so is their weighted mean.
const ROUNDING = 2 ** -50;

/**
 * The mean direction and the mean resultant length of angles in radians; each angle may have a weight (0 or more), 1 when left out.
 *
 * Mardia & Jupp 2000, Directional Statistics, ch. 2 (from memory; values against Jammalamadaka & SenGupta 2001). Throws `RangeError` when
 * there is no angle, the weights are not one for each, or they add up to nothing.
 *
 * @example bearing([0.1, 0.2, 0.3]).direction // 0.2
 */
export function bearing(angles: readonly number[], weights?: readonly number[]): Bearing {
  if (weights !== undefined && weights.length !== angles.length)
    throw new RangeError(`${weights.length} weights cannot go with ${angles.length} angles`);
  const weight = (i: number): number => weights?.[i] ?? 1;
  const total = angles.reduce((sum, _, i) => sum + weight(i), 0);
  if (!(total > 0)) throw new RangeError("a mean direction takes one angle with a weight above 0 at least");
  const across = angles.reduce((sum, angle, i) => sum + weight(i) * Math.cos(angle), 0) / total;
  const up = angles.reduce((sum, angle, i) => sum + weight(i) * Math.sin(angle), 0) / total;
  const resultant = Math.min(1, Math.hypot(across, up));
  return {
    direction: resultant < ROUNDING ? { unmeasured: "the angles cancel out" } : Math.atan2(up, across),
    resultant,
  };
}

/** Circular standard deviation, radians: sqrt(-2 ln R), the deviation of a wrapped normal distribution; unmeasured for R = 0. */
export function circularDeviation(resultant: number): Measure {
  if (!(resultant >= 0 && resultant <= 1)) throw new RangeError(`a resultant is from 0 to 1, got ${resultant}`);
  return resultant === 0 ? { unmeasured: "the angles cancel out" } : Math.sqrt(-2 * Math.log(resultant)) + 0;
}

/**
 * Rayleigh's test: do the angles (radians) share any direction at all?
 *
 * z = n R^2, p = e^-z [1 + (2z - z^2) / 4n - (24z - 132z^2 + 76z^3 - 9z^4) / 288n^2], held to 0..1: Mardia & Jupp 2000, section 6.3 (from
 * memory). The series is off by up to 0.002 at n = 5 and 0.0002 at n = 8
 * (measured by simulation); with fewer than 5 angles claim nothing. Throws `RangeError` for an empty list.
 */
export function rayleighTest(angles: readonly number[]): DirectionTest {
  const n = angles.length;
  const z = n * bearing(angles).resultant ** 2;
  const first = (2 * z - z ** 2) / (4 * n);
  const second = (24 * z - 132 * z ** 2 + 76 * z ** 3 - 9 * z ** 4) / (288 * n ** 2);
  return { statistic: z, p: Math.min(1, Math.max(0, Math.exp(-z) * (1 + first - second))) };
}

/**
 * The V test: do the angles (radians) share the direction stated beforehand, such as "on the beat"?
 *
 * u = V sqrt(2n) with V = R cos(mean direction - stated direction), p = 1 - Φ(u) corrected for small n as Greenwood & Durand 1955 do (Zar,
 * Biostatistical Analysis, section 27.1 for the plain form: from memory). Throws `RangeError` for an empty list.
 */
export function vTest(angles: readonly number[], direction: number): DirectionTest {
  const n = angles.length;
  const found = bearing(angles);
  const along = typeof found.direction === "number" ? found.resultant * Math.cos(found.direction - direction) : 0;
  const u = along * Math.sqrt(2 * n);
  const density = Math.exp(-(u ** 2) / 2) / Math.sqrt(2 * Math.PI);
  const first = (3 * u - u ** 3) / (16 * n);
  const second = (15 * u + 305 * u ** 3 - 125 * u ** 5 + 9 * u ** 7) / (4608 * n ** 2);
  return { statistic: u, p: Math.min(1, Math.max(0, normalBelow(-u) + density * (first + second))) };
}
