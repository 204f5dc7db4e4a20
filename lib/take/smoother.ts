import { beliefsOver, KEPT, type OffsetPrior } from "./filter.js";
import { type Guide, STEP } from "./guide.js";
import type { Noise } from "./noise.js";

/** The player's time along a take, given all of it; one entry an instant at which anything happens, ascending. Milliseconds. */
export interface Smoothed {
  readonly at: Float64Array;
  /** Asynchrony, constant offset included, before the correction on a beat of that instant. */
  readonly mean: Float64Array;
  readonly variance: Float64Array;
}

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
  const kept = beliefsOver(guide, asynchrony, noise, prior);
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
    if (kept[step * KEPT + 9] === 0) continue;
    bb += gap * (2 * zb + gap * zz);
    mb += gap * zm;
    zb += gap * zz;
    lb += gap * lz;
  }
  const inOrder = (values: readonly number[]): Float64Array => Float64Array.from(values).reverse();
  return { at: inOrder(instants), mean: inOrder(mean), variance: inOrder(variance) };
}
