import { type Likelihood, likelihoodOver, type Passed, passOver } from "./filter.js";
import type { Guide } from "./guide.js";
import { logPrior, type Noise, type NoisePoint, noiseAt, PRIOR } from "./noise.js";
import type { OffsetPrior } from "./space.js";

/** One noise setting with what the take looks like under it. */
export interface Weighed {
  readonly noise: Noise;
  /** Share of the posterior probability, adding up to 1 over the fit. */
  readonly weight: number;
  readonly passed: Passed;
}

export interface Fit {
  readonly mode: NoisePoint;
  /** Posterior standard deviation of the logarithms, by Laplace's approximation. */
  readonly sd: NoisePoint;
  /** The mode first, then two standard deviations either way along three independent directions. */
  readonly points: readonly [Weighed, ...Weighed[]];
}

export interface FitOptions {
  readonly prior: OffsetPrior;
  readonly floorMs: number;
  readonly start: NoisePoint;
}

// Half the width of the differences along level, ratio and bias, about the posterior's standard deviation for 100 notes; the longest step; and the step
// that is too short to matter; all in natural logarithms. Our choice.
const HALF_WIDTH = [0.06, 0.15, 0.3] as const;
const LONGEST_STEP = 0.7;
const SETTLED = 0.1;
// How far from the mode the posterior is sampled, in standard deviations (our choice: the rule's weights stay positive above the root of 3).
const REACH = 2;
// The likelihood may be hollow far from its mode; there the prior's own curvature (of level, ratio, bias) keeps the steps sane.
const LEAST_CURVATURE = [PRIOR.motorSd ** -2, PRIOR.clockSd ** -2, PRIOR.biasSd ** -2] as const;

/** The player's constant offset while accompanied, and its standard error, ms. */
export interface Offset {
  readonly mean: number;
  readonly sd: number;
}

export function offsetIn({ points }: Fit): Offset {
  let mean = 0;
  for (const { weight, passed } of points) mean += weight * passed.offset;
  let variance = 0;
  for (const { weight, passed } of points) variance += weight * (passed.offsetVariance + (passed.offset - mean) ** 2);
  return { mean, sd: Math.sqrt(variance) };
}

type Axis = 0 | 1 | 2;
const AXES: readonly Axis[] = [0, 1, 2];

interface Evaluated {
  readonly point: NoisePoint;
  readonly likelihood: Likelihood;
  /** Logarithm of the posterior, up to a constant. */
  readonly value: number;
}

/** The most likely noise of a take, and its standard deviation. */
export interface Mode {
  readonly point: NoisePoint;
  /** Posterior covariance of the logarithms, by Laplace's approximation. */
  readonly covariance: Covariance;
  /** The constant offset at the mode, ms. */
  readonly offset: number;
}

/** Learns the noise of a take from the take: the posterior mode by damped Newton steps on central differences, at most `rounds` of them. */
export function findMode(
  guide: Guide,
  asynchrony: Float64Array,
  options: FitOptions & { readonly rounds: number },
): Mode {
  const evaluate = evaluator(guide, asynchrony, options);
  let mode = evaluate(options.start);
  let covariance = inverseOf([1, 1, 1], [0, 0, 0]);
  for (let round = 0; round < options.rounds; round++) {
    const { step, covariance: here } = newtonStep(mode, evaluate);
    covariance = here;
    mode = climb(mode, step, evaluate);
    if (Math.max(...step.map(Math.abs)) < SETTLED) break;
  }
  return { point: mode.point, covariance, offset: mode.likelihood.offset };
}

/** The take under the noise at the mode and around it, weighed. */
export function fitAround(
  guide: Guide,
  asynchrony: Float64Array,
  { point, covariance }: Mode,
  options: FitOptions,
): Fit {
  const points = directionsOf(covariance).flatMap(([x, y, z]) =>
    [REACH, -REACH].map((by): NoisePoint => [point[0] + by * x, point[1] + by * y, point[2] + by * z]),
  );
  const passAt = (at: NoisePoint): Sampled => {
    const noise = noiseAt(at, options.floorMs);
    const passed = passOver(guide, asynchrony, noise, options.prior);
    return { noise, passed, value: passed.logLikelihood + logPrior(at) };
  };
  const sd: NoisePoint = [covariance[0][0] ** 0.5, covariance[1][1] ** 0.5, covariance[2][2] ** 0.5];
  return { mode: point, sd, points: weigh(passAt(point), points.map(passAt)) };
}

interface Sampled extends Pick<Weighed, "noise" | "passed"> {
  /** Logarithm of the posterior, up to a constant. */
  readonly value: number;
}

function evaluator(
  guide: Guide,
  asynchrony: Float64Array,
  { prior, floorMs }: FitOptions,
): (point: NoisePoint) => Evaluated {
  return (point) => {
    const likelihood = likelihoodOver(guide, asynchrony, noiseAt(point, floorMs), prior);
    return { point, likelihood, value: likelihood.logLikelihood + logPrior(point) };
  };
}

/** Newton's step from central differences, cross terms included; along the axes alone where the posterior is not a hill. */
function newtonStep(
  { point, value }: Evaluated,
  evaluate: (point: NoisePoint) => Evaluated,
): { step: NoisePoint; covariance: Covariance } {
  const at = (i: Axis, by: number, from = point): NoisePoint => moved(from, i, by * HALF_WIDTH[i]);
  const up = onAxes((i) => evaluate(at(i, 1)).value);
  const down = onAxes((i) => evaluate(at(i, -1)).value);
  const slope = onAxes((i) => (up[i] - down[i]) / (2 * HALF_WIDTH[i]));
  const curvature = onAxes((i) => Math.max(LEAST_CURVATURE[i], (2 * value - up[i] - down[i]) / HALF_WIDTH[i] ** 2));
  const cross = (i: Axis, j: Axis): number => {
    const both = evaluate(at(j, 1, at(i, 1))).value;
    return -(both - up[i] - up[j] + value) / (HALF_WIDTH[i] * HALF_WIDTH[j]);
  };
  const covariance = inverseOf(curvature, [cross(0, 1), cross(0, 2), cross(1, 2)]);
  const step = onAxes((i) => {
    const move = AXES.reduce<number>((sum, j) => sum + covariance[i][j] * slope[j], 0);
    return Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, move));
  });
  return { step, covariance };
}

const onAxes = (value: (axis: Axis) => number): NoisePoint => [value(0), value(1), value(2)];

type Covariance = readonly [NoisePoint, NoisePoint, NoisePoint];

/** Inverse of a curvature with this diagonal and these cross terms (01, 02, 12); without them where it is not a hill. */
function inverseOf([a, b, c]: NoisePoint, [d, e, f]: NoisePoint): Covariance {
  const determinant = a * (b * c - f * f) - d * (d * c - e * f) + e * (d * f - b * e);
  // A hill has all leading minors positive (Sylvester); a tenth keeps clear of ridges that differences cannot tell from none.
  if (!(a * b - d * d > 0 && determinant > 0.1 * a * b * c)) return inverseOf([a, b, c], [0, 0, 0]);
  const over = 1 / determinant;
  const row = (x: number, y: number, z: number): NoisePoint => [x * over, y * over, z * over];
  return [
    row(b * c - f * f, e * f - d * c, d * f - e * b),
    row(e * f - d * c, a * c - e * e, d * e - a * f),
    row(d * f - e * b, d * e - a * f, a * b - d * d),
  ];
}

/** Columns of the Cholesky factor of a covariance: independent directions, one standard deviation long. */
function directionsOf(covariance: Covariance): Covariance {
  const [[aa, ab, ac], [, bb, bc], [, , cc]] = covariance;
  const l00 = Math.sqrt(aa);
  const [l10, l20] = [ab / l00, ac / l00];
  const l11 = Math.sqrt(bb - l10 * l10);
  const l21 = (bc - l20 * l10) / l11;
  const l22 = Math.sqrt(cc - l20 * l20 - l21 * l21);
  return [
    [l00, l10, l20],
    [0, l11, l21],
    [0, 0, l22],
  ];
}

/** The end of the step, or of a half or a quarter of it, where it is uphill. */
function climb(from: Evaluated, step: NoisePoint, evaluate: (point: NoisePoint) => Evaluated): Evaluated {
  for (const share of [1, 0.4, 0.15]) {
    const { point } = from;
    const next = evaluate([point[0] + share * step[0], point[1] + share * step[1], point[2] + share * step[2]]);
    if (next.value >= from.value) return next;
  }
  return from;
}

/**
 * Weights of the star of points: a rule exact to third order for a normal posterior (each axis point 1 / (2 REACH^2), the mode the rest; from
 * memory, checked in the tests), times how much the true posterior there differs from the normal one.
 */
function weigh(mode: Sampled, around: readonly Sampled[]): [Weighed, ...Weighed[]] {
  const own = 1 - AXES.length / REACH ** 2;
  const shares = around.map(({ value }) => Math.exp(value - mode.value + REACH ** 2 / 2) / (2 * REACH ** 2));
  const sum = shares.reduce((total, share) => total + share, own);
  const weighed = ({ noise, passed }: Sampled, share: number): Weighed => ({ noise, passed, weight: share / sum });
  return [weighed(mode, own), ...around.map((sampled, k) => weighed(sampled, shares[k]!))];
}

function moved(point: NoisePoint, axis: Axis, by: number): NoisePoint {
  return [point[0] + (axis === 0 ? by : 0), point[1] + (axis === 1 ? by : 0), point[2] + (axis === 2 ? by : 0)];
}
