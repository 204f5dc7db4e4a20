import { type OffsetPrior, settledVariance } from "./filter.js";
import { type Guide, STEP } from "./guide.js";
import type { Noise } from "./noise.js";

/** The player's time along a take, given all of it; one entry an instant at which anything happens, ascending. Milliseconds. */
export interface Smoothed {
  readonly at: Float64Array;
  /** Asynchrony, constant offset included, before the correction on a beat of that instant. */
  readonly mean: Float64Array;
  readonly variance: Float64Array;
}

// What the forward pass keeps of each step, before it is taken: means of z, m, b and their covariances.
const KEPT = 9;

/**
 * The asynchrony along a take by fixed-interval smoothing, in the model of `passOver`: state z (asynchrony), m (constant offset), b (tempo
 * bias of the present silence).
 *
 * Modified Bryson-Frazier form: no covariance is inverted, which matters because b is certain wherever something sounds. Bierman 1973, "Fixed
 * interval smoothing with discrete measurements", Int. J. Control 18, 65-75 (from memory; checked against the joint normal distribution
 * conditioned in one go in the tests). With gains K, innovation e and its variance v, from the last step to the first:
 * l <- C'l - h e / v and L <- C'LC + hh' / v at a note (h picks z, C = I - K h'), l <- F'l and L <- F'LF over a transition F;
 * the smoothed state is x - P l, its covariance P - P L P.
 *
 * @param asynchrony per expected onset, ms; NaN where it was not played
 */
export function smoothOver(guide: Guide, asynchrony: Float64Array, noise: Noise, prior: OffsetPrior): Smoothed {
  const { kind, at, index } = guide;
  const steps = kind.length;
  const motor = noise.motor ** 2;
  const a = noise.correction;
  const { kept, free } = forward(guide, asynchrony, noise, prior);
  const instants: number[] = [];
  const mean: number[] = [];
  const variance: number[] = [];
  // l and L of the comment above.
  let [lz, lm, lb] = [0, 0, 0];
  let [zz, zm, zb, mm, mb, bb] = [0, 0, 0, 0, 0, 0];
  for (let step = steps - 1; step >= 0; step--) {
    const [z, , , Pzz, Pzm, Pzb] = kept.subarray(step * KEPT, (step + 1) * KEPT) as unknown as number[];
    const [pz, pm, pb] = [Pzz!, Pzm!, Pzb!];
    const which = index[step]!;
    switch (kind[step]) {
      case STEP.note: {
        const y = asynchrony[which]!;
        if (Number.isNaN(y)) break;
        const v = pz + motor;
        const [kz, km, kb] = [pz / v, pm / v, pb / v];
        lz -= kz * lz + km * lm + kb * lb + (y - z!) / v;
        const gz = zz * kz + zm * km + zb * kb;
        const gm = zm * kz + mm * km + mb * kb;
        const gb = zb * kz + mb * km + bb * kb;
        zz += kz * gz + km * gm + kb * gb - 2 * gz + 1 / v;
        zm -= gm;
        zb -= gb;
        break;
      }
      case STEP.silenceStarts:
      case STEP.silenceEnds:
        lb = zb = mb = bb = 0;
        break;
      case STEP.beat: {
        // z <- z - a (y - m) where a note was heard on the beat, (1 - a) z + a m where none was.
        const keep = which >= 0 && !Number.isNaN(asynchrony[which]!) ? 1 : 1 - a;
        mm += 2 * a * zm + a * a * zz;
        mb += a * zb;
        zm = keep * (zm + a * zz);
        zb *= keep;
        zz *= keep * keep;
        lm += a * lz;
        lz *= keep;
      }
    }
    const gap = step === 0 ? 0 : at[step]! - at[step - 1]!;
    if (step > 0 && gap <= 0) continue;
    instants.push(at[step]!);
    mean.push(z! - pz * lz - pm * lm - pb * lb);
    const taken = pz * (zz * pz + 2 * zm * pm + 2 * zb * pb) + pm * (mm * pm + 2 * mb * pb) + bb * pb * pb;
    variance.push(Math.max(0, pz - taken));
    if (free[step] === 0) continue;
    bb += gap * (2 * zb + gap * zz);
    mb += gap * zm;
    zb += gap * zz;
    lb += gap * lz;
  }
  const inOrder = (values: readonly number[]): Float64Array => Float64Array.from(values).reverse();
  return { at: inOrder(instants), mean: inOrder(mean), variance: inOrder(variance) };
}

/** The filter alone: what is believed before each step, and whether the player's time ran free on the way to it. */
function forward(
  { kind, at, index, beatMs }: Guide,
  asynchrony: Float64Array,
  noise: Noise,
  prior: OffsetPrior,
): { readonly kept: Float64Array; readonly free: Uint8Array } {
  const clockPerMs = noise.clock ** 2 / beatMs;
  const a = noise.correction;
  const kept = new Float64Array(kind.length * KEPT);
  const free = new Uint8Array(kind.length);
  let [z, m, b] = [prior.mean, prior.mean, 0];
  let mm = prior.sd ** 2;
  let zm = mm;
  let zz = mm + settledVariance(noise);
  let [zb, mb, bb] = [0, 0, 0];
  let isFree = 0;
  for (let step = 0; step < kind.length; step++) {
    const gap = step === 0 ? 0 : at[step]! - at[step - 1]!;
    free[step] = isFree;
    zz += clockPerMs * gap;
    if (isFree === 1) {
      z += b * gap;
      zz += gap * (2 * zb + gap * bb);
      zm += gap * mb;
      zb += gap * bb;
    }
    kept.set([z, m, b, zz, zm, zb, mm, mb, bb], step * KEPT);
    const y = index[step]! >= 0 ? asynchrony[index[step]!]! : Number.NaN;
    switch (kind[step]) {
      case STEP.note: {
        if (Number.isNaN(y)) break;
        const v = zz + noise.motor ** 2;
        const e = y - z;
        const [kz, km, kb] = [zz / v, zm / v, zb / v];
        z += kz * e;
        m += km * e;
        b += kb * e;
        mm -= km * zm;
        mb -= km * zb;
        bb -= kb * zb;
        zm -= kz * zm;
        zb -= kz * zb;
        zz -= kz * zz;
        break;
      }
      case STEP.silenceStarts:
        isFree = 1;
        bb = noise.bias ** 2;
        break;
      case STEP.silenceEnds:
        isFree = 0;
        b = zb = mb = bb = 0;
        break;
      case STEP.beat: {
        const keep = Number.isNaN(y) ? 1 - a : 1;
        z = keep * z + a * m - (Number.isNaN(y) ? 0 : a * y);
        zz = keep * keep * zz + 2 * a * keep * zm + a * a * mm;
        zb = keep * zb + a * mb;
        zm = keep * zm + a * mm;
      }
    }
  }
  return { kept, free };
}
