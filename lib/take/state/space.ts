import type { Noise } from "./noise.js";

/**
 * The state space of a player's time: z, the asynchrony (constant offset included), m, the constant offset, and b, the tempo bias of the
 * present silence (ms of z for each ms of time). Milliseconds throughout.
 *
 * A belief is a normal distribution of (z, m, b): its mean and covariances as nine doubles, since JavaScript engines keep the arithmetic of such
 * arrays at full speed. Everything that happens to a player's time is one of the functions below; the
 * pairing, the filter and the smoother have no other.
 */
export const BELIEF = 9;

// Mean and covariances within a belief.
const Z = 0;
const M = 1;
const B = 2;
const ZZ = 3;
const ZM = 4;
const ZB = 5;
const MM = 6;
const MB = 7;
const BB = 8;

/** What is known of the constant offset before the take: mean and standard deviation, ms. */
export interface OffsetPrior {
  readonly mean: number;
  readonly sd: number;
}

/** Copies one belief over another; written out, since the copying of short arrays by the engine is ten times as dear. */
export function copyBelief(from: Float64Array, to: Float64Array): void {
  to[Z] = from[Z]!;
  to[M] = from[M]!;
  to[B] = from[B]!;
  to[ZZ] = from[ZZ]!;
  to[ZM] = from[ZM]!;
  to[ZB] = from[ZB]!;
  to[MM] = from[MM]!;
  to[MB] = from[MB]!;
  to[BB] = from[BB]!;
}

/** Variance of the phase of a player long accompanied: (clock^2 + a^2 motor^2) / (a (2 - a)); from Vorberg & Schulze 2002 (from memory), less the motor delay of the note itself. */
export function settledVariance({ clock, motor, correction: a }: Noise): number {
  return (clock ** 2 + a ** 2 * motor ** 2) / (a * (2 - a));
}

/** The belief before the first note: the prior of the offset, and a player who has long been accompanied. */
export function begin(belief: Float64Array, { mean, sd }: OffsetPrior, noise: Noise): void {
  belief.fill(0);
  belief[Z] = belief[M] = mean;
  belief[MM] = belief[ZM] = sd ** 2;
  belief[ZZ] = sd ** 2 + settledVariance(noise);
}

/**
 * Time passes: z gains the clock's variance and, where the player's time runs free, b for each millisecond, while b wanders.
 *
 * @param wander variance that b gains in each ms; `undefined` where time does not run free
 */
export function advance(belief: Float64Array, gap: number, clockVariance: number, wander: number | undefined): void {
  belief[ZZ]! += clockVariance;
  if (wander === undefined) return;
  const bb = belief[BB]!;
  const zb = belief[ZB]!;
  belief[Z]! += belief[B]! * gap;
  belief[ZZ]! += gap * (2 * zb + gap * bb);
  belief[ZM]! += gap * belief[MB]!;
  belief[ZB] = zb + gap * bb;
  const wandered = wander * gap;
  belief[BB] = bb + wandered;
  belief[ZB]! += (wandered * gap) / 2;
  belief[ZZ]! += (wandered * gap * gap) / 3;
}

/** A silence starts: b, 0 until now, gets its variance. */
export function letGo(belief: Float64Array, biasVariance: number): void {
  belief[BB] = biasVariance;
}

/** A silence ends: b is 0 again. */
export function takeUp(belief: Float64Array): void {
  belief[B] = belief[ZB] = belief[MB] = belief[BB] = 0;
}

/** A note is heard at asynchrony y = z + motor noise: the Kalman update. */
export function observe(belief: Float64Array, y: number, motorVariance: number): void {
  const zz = belief[ZZ]!;
  const zm = belief[ZM]!;
  const zb = belief[ZB]!;
  const precision = 1 / (zz + motorVariance);
  const e = (y - belief[Z]!) * precision;
  const left = motorVariance * precision;
  belief[Z]! += zz * e;
  belief[M]! += zm * e;
  belief[B]! += zb * e;
  belief[MM]! -= zm * zm * precision;
  belief[MB]! -= zm * zb * precision;
  belief[BB]! -= zb * zb * precision;
  belief[ZM] = zm * left;
  belief[ZB] = zb * left;
  belief[ZZ] = zz * left;
}

/**
 * A beat sounds: the player takes back a share of what was heard, z - share (y - m), or of the asynchrony itself, z - share (z - m), where no
 * note was heard on it.
 *
 * @param y asynchrony of the note on that beat; NaN when there is none
 */
export function takeBack(belief: Float64Array, share: number, y: number): void {
  const silent = Number.isNaN(y);
  const keep = silent ? 1 - share : 1;
  const m = belief[M]!;
  const zm = belief[ZM]!;
  const mm = belief[MM]!;
  belief[Z] = silent ? keep * belief[Z]! + share * m : belief[Z]! - share * (y - m);
  belief[ZZ] = keep * keep * belief[ZZ]! + share * (2 * keep * zm + share * mm);
  belief[ZB] = keep * belief[ZB]! + share * belief[MB]!;
  belief[ZM] = keep * zm + share * mm;
}

// Who is back at once is within 40 ms of where he is usually, standard deviation: the middle of the onset differences of professional trios (30-50 ms: Rasch
// 1979, quoted).
const BACK_VARIANCE = 40 ** 2;

/** Whether a player is further from the accompaniment than so many milliseconds. */
export const isAway = (belief: Float64Array, ms: number): boolean => Math.abs(belief[Z]! - belief[M]!) > ms;

/** The accompaniment is heard, and the player is back with it at once: z is about m. */
export function turnBack(belief: Float64Array): void {
  takeBack(belief, 1, Number.NaN);
  belief[ZZ]! += BACK_VARIANCE;
}

/** What is expected of the asynchrony of a note heard now, and how sure that is: the variance of z alone, without motor noise. */
export const expectedOf = (belief: Float64Array): number => belief[Z]!;
export const offsetOf = (belief: Float64Array): number => belief[M]!;
export const varianceOf = (belief: Float64Array): number => belief[ZZ]!;
export const offsetVarianceOf = (belief: Float64Array): number => belief[MM]!;

// Beliefs of offset and tempo bias are the same when they differ by less than so many standard deviations, and the variances of the bias by less
// than so much, as a ratio; TINY keeps the comparison finite where there is no bias. Our choice.
const SAME_OFFSET = 1;
const SAME_BIAS = 1;
const SAME_BIAS_RATIO = Math.exp(0.7);
const TINY = 1e-12;

/** Whether two belief may stand for each other: asynchronies less than `apart` standard deviations of the second from each other, offset and bias about the same. */
export function alike(one: Float64Array, other: Float64Array, apart: number): boolean {
  const z = one[Z]! - other[Z]!;
  const m = one[M]! - other[M]!;
  const b = one[B]! - other[B]!;
  const biases = (one[BB]! + TINY) / (other[BB]! + TINY);
  return (
    z * z < apart * apart * other[ZZ]! &&
    m * m < SAME_OFFSET * SAME_OFFSET * other[MM]! &&
    b * b < SAME_BIAS * SAME_BIAS * (other[BB]! + TINY) &&
    biases < SAME_BIAS_RATIO &&
    biases * SAME_BIAS_RATIO > 1
  );
}

/**
 * A mark: an earlier asynchrony s that is kept beside the belief, so that later notes still refine it (fixed-point smoothing; Anderson & Moore
 * 1979, Optimal Filtering, ch. 7, from memory). Five numbers: its mean, its covariances with z, m and b, its variance.
 */
export const MARK = 5;
const S = 0;
const ZS = 1;
const MS = 2;
const BS = 3;
const SS = 4;

/** s is the asynchrony now. */
export function markNow(mark: Float64Array, belief: Float64Array): void {
  mark[S] = belief[Z]!;
  mark[SS] = mark[ZS] = belief[ZZ]!;
  mark[MS] = belief[ZM]!;
  mark[BS] = belief[ZB]!;
}

/** s becomes the change since the mark, z - s. */
export function markChange(mark: Float64Array, belief: Float64Array): void {
  mark[SS] = belief[ZZ]! - 2 * mark[ZS]! + mark[SS]!;
  mark[ZS] = belief[ZZ]! - mark[ZS]!;
  mark[MS] = belief[ZM]! - mark[MS]!;
  mark[BS] = belief[ZB]! - mark[BS]!;
  mark[S] = belief[Z]! - mark[S]!;
}

export const markedOf = (mark: Float64Array): number => mark[S]!;
export const markedVarianceOf = (mark: Float64Array): number => mark[SS]!;

/** What `advance` does to a mark where time runs free. */
export function advanceMark(mark: Float64Array, gap: number): void {
  mark[ZS]! += gap * mark[BS]!;
}

/** What `takeUp` does to a mark. */
export function takeUpMark(mark: Float64Array): void {
  mark[BS] = 0;
}

/** What `observe` does to a mark; called before it. */
export function observeMark(mark: Float64Array, belief: Float64Array, y: number, motorVariance: number): void {
  const zs = mark[ZS]!;
  const gain = zs / (belief[ZZ]! + motorVariance);
  mark[S]! += gain * (y - belief[Z]!);
  mark[SS]! -= gain * zs;
  mark[MS]! -= gain * belief[ZM]!;
  mark[BS]! -= gain * belief[ZB]!;
  mark[ZS] = gain * motorVariance;
}

/** What `takeBack` does to a mark. */
export function takeBackMark(mark: Float64Array, share: number, y: number): void {
  mark[ZS] = (Number.isNaN(y) ? 1 - share : 1) * mark[ZS]! + share * mark[MS]!;
}

/*
 * The same steps backwards, for smoothing: what later notes say of a belief, as a vector l and a matrix L in the places of the mean and the
 * covariances, both 0 after the last step. The smoothed mean is x - P l, the covariance P - P L P (modified Bryson-Frazier form: Bierman 1973,
 * "Fixed interval smoothing with discrete measurements", Int. J. Control 18, 65-75, from memory). No covariance is inverted, which matters
 * because b is certain wherever something sounds. With the gain K, the innovation e and its variance v, h picking z: l <- C'l - h e / v and
 * L <- C'LC + hh' / v at a note, C = I - K h'; l <- F'l and L <- F'LF over any other step F.
 */

/** Before a note was heard at y, by the belief before it. */
export function observeBack(later: Float64Array, belief: Float64Array, y: number, motor: number): void {
  const v = belief[ZZ]! + motor;
  const kz = belief[ZZ]! / v;
  const km = belief[ZM]! / v;
  const kb = belief[ZB]! / v;
  later[Z]! -= kz * later[Z]! + km * later[M]! + kb * later[B]! + (y - belief[Z]!) / v;
  const gz = later[ZZ]! * kz + later[ZM]! * km + later[ZB]! * kb;
  const gm = later[ZM]! * kz + later[MM]! * km + later[MB]! * kb;
  const gb = later[ZB]! * kz + later[MB]! * km + later[BB]! * kb;
  later[ZZ]! += kz * gz + km * gm + kb * gb - 2 * gz + 1 / v;
  later[ZM]! -= gm;
  later[ZB]! -= gb;
}

/** Before a silence started or ended: b was 0. */
export function takeUpBack(later: Float64Array): void {
  later[B] = later[ZB] = later[MB] = later[BB] = 0;
}

/** Before a beat sounded; y as in `takeBack`. */
export function takeBackBack(later: Float64Array, share: number, y: number): void {
  const keep = Number.isNaN(y) ? 1 - share : 1;
  const zz = later[ZZ]!;
  const zm = later[ZM]!;
  later[MM]! += 2 * share * zm + share * share * zz;
  later[MB]! += share * later[ZB]!;
  later[ZM] = keep * (zm + share * zz);
  later[ZB] = keep * later[ZB]!;
  later[ZZ] = keep * keep * zz;
  later[M]! += share * later[Z]!;
  later[Z] = keep * later[Z]!;
}

/** Before time ran free for `gap`. */
export function advanceBack(later: Float64Array, gap: number): void {
  const zz = later[ZZ]!;
  later[BB]! += gap * (2 * later[ZB]! + gap * zz);
  later[MB]! += gap * later[ZM]!;
  later[ZB]! += gap * zz;
  later[B]! += gap * later[Z]!;
}

/** The asynchrony of a belief, given what later notes say of it. */
export function smoothedMean(later: Float64Array, belief: Float64Array): number {
  return belief[Z]! - belief[ZZ]! * later[Z]! - belief[ZM]! * later[M]! - belief[ZB]! * later[B]!;
}

export function smoothedVariance(later: Float64Array, belief: Float64Array): number {
  const zz = belief[ZZ]!;
  const zm = belief[ZM]!;
  const zb = belief[ZB]!;
  const taken =
    zz * (later[ZZ]! * zz + 2 * later[ZM]! * zm + 2 * later[ZB]! * zb) +
    zm * (later[MM]! * zm + 2 * later[MB]! * zb) +
    later[BB]! * zb * zb;
  return Math.max(0, zz - taken);
}
