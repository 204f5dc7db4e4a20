import type { Biquad } from "../biquad.js";

/** Sampling rate of the filter tables in ITU-R BS.1770-4 Annex 1, Hz. */
const TABLE_RATE = 48000;
/** ITU-R BS.1770-4 Annex 1, table 1: the shelving filter that models the head. */
const SHELF: Biquad = {
  b: [1.53512485958697, -2.69169618940638, 1.19839281085285],
  a: [-1.69065929318241, 0.73248077421585],
};
/** ITU-R BS.1770-4 Annex 1, table 2: the high pass. */
const HIGH_PASS: Biquad = { b: [1, -2, 1], a: [-1.99004745483398, 0.99007225036621] };

/**
 * The two K-weighting filters, in order: at 48 kHz as tabulated in ITU-R BS.1770-4 Annex 1.
 *
 * At another rate the inverse bilinear transform at 48 kHz gives the analogue filter, and the bilinear transform at `rate` gives the digital
 * one, so that the frequency response stays the same. The recommendation asks for the same response and does not prescribe the method.
 */
export function kWeighting(rate: number): readonly Biquad[] {
  return [SHELF, HIGH_PASS].map((filter) => (rate === TABLE_RATE ? filter : atRate(filter, rate)));
}

/**
 * With z = (1 + s) / (1 - s), in units where s = tan(pi f / rate), a polynomial c0 + c1 z^-1 + c2 z^-2 times (1 + s)^2 is
 * (c0 + c1 + c2) + 2 (c0 - c2) s + (c0 - c1 + c2) s^2. A frequency stays the same when s is multiplied by the ratio of the
 * tangents. Far below half the rates this is the ratio of the rates; it is exact at the corner frequency of each filter.
 */
function atRate({ b, a }: Biquad, rate: number): Biquad {
  const below = analogue([1, a[0], a[1]]);
  const above = analogue(b);
  const corner = Math.sqrt(below[0] / below[2]);
  const hertz = (Math.atan(corner) * TABLE_RATE) / Math.PI;
  const stretch = corner / Math.tan((Math.PI * hertz) / rate);
  const denominator = digital(below, stretch);
  const numerator = digital(above, stretch);
  return {
    b: [numerator[0] / denominator[0], numerator[1] / denominator[0], numerator[2] / denominator[0]],
    a: [denominator[1] / denominator[0], denominator[2] / denominator[0]],
  };
}

type Three = readonly [number, number, number];

function analogue([c0, c1, c2]: Three): Three {
  return [c0 + c1 + c2, 2 * (c0 - c2), c0 - c1 + c2];
}

/** Back to powers of z^-1, with s = stretch * (1 - z^-1) / (1 + z^-1). */
function digital([k0, k1, k2]: Three, stretch: number): Three {
  const linear = k1 * stretch;
  const square = k2 * stretch * stretch;
  return [k0 + linear + square, 2 * (k0 - square), k0 - linear + square];
}
