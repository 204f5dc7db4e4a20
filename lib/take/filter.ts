import { type Guide, STEP } from "./guide.js";
import type { Noise } from "./noise.js";

/** What is believed of the constant offset before the take: mean and standard deviation, ms. */
export interface OffsetPrior {
  readonly mean: number;
  readonly sd: number;
}

/** The player's time after a pass over a take with the pairing given. Milliseconds. */
export interface Passed {
  /** Log-likelihood of the asynchronies. */
  readonly logLikelihood: number;
  readonly offset: number;
  readonly offsetVariance: number;
  /** Per stretch, drift and its variance given everything played until the next marked stretch begins (or the take ends). */
  readonly drift: Float64Array;
  readonly driftVariance: Float64Array;
}

const LOG_TWO_PI = Math.log(2 * Math.PI);

/**
 * One Kalman pass over a take.
 *
 * State: z, the player's asynchrony (offset included); m, the constant offset; b, the tempo bias of the present silence; s, the asynchrony
 * at the start of the marked stretch, and from its end the drift z - s, kept as a constant so that later notes still refine it (fixed-point
 * smoothing; Anderson & Moore 1979, Optimal Filtering, ch. 7, from memory; checked against batch least squares in the tests).
 * z gains clock variance with every beat that passes, and b times the elapsed time in a silence; on a beat that sounds, the player takes
 * back a share a of what was heard: z - a (y - m) where a note fell on the beat, z - a (z - m) where none did.
 *
 * @param asynchrony per expected onset, ms; NaN where it was not played
 */
export function passOver(guide: Guide, asynchrony: Float64Array, noise: Noise, prior: OffsetPrior): Passed {
  return walk(stepsOf(guide, asynchrony, NOTHING_KEPT), termsOf(guide, noise, prior));
}

/** Numbers kept of each step: z, m, b, the covariances zz, zm, zb, mm, mb, bb, and 1 where the player's time ran free on the way to the step. */
export const KEPT = 10;
const NOTHING_KEPT: Float64Array = new Float64Array(0);

/** What is believed before each step of the same pass: `KEPT` numbers a step. */
export function beliefsOver(guide: Guide, asynchrony: Float64Array, noise: Noise, prior: OffsetPrior): Float64Array {
  const kept = new Float64Array(guide.kind.length * KEPT);
  walk(stepsOf(guide, asynchrony, kept), termsOf(guide, noise, prior));
  return kept;
}

function stepsOf({ kind, at, index, stretches }: Guide, asynchrony: Float64Array, kept: Float64Array): Steps {
  const drift = new Float64Array(stretches.length).fill(Number.NaN);
  const driftVariance = new Float64Array(stretches.length).fill(Number.NaN);
  return { kind, at, index, asynchrony, drift, driftVariance, kept };
}

function termsOf({ beatMs }: Guide, noise: Noise, prior: OffsetPrior): Float64Array {
  const { clock, motor, bias, correction } = noise;
  const terms = [clock ** 2 / beatMs, motor ** 2, bias ** 2, correction, settledVariance(noise), prior.mean, prior.sd];
  return Float64Array.from(terms);
}

/** What the inner loop reads and fills; like its terms nothing but arrays of numbers, which JavaScript engines keep at full speed whatever was called before. */
interface Steps extends Pick<Guide, "kind" | "at" | "index">, Pick<Passed, "drift" | "driftVariance"> {
  readonly asynchrony: Float64Array;
  /** Filled with `KEPT` numbers a step; empty when nothing is to be kept. */
  readonly kept: Float64Array;
}

function walk({ kind, at, index, asynchrony, drift, driftVariance, kept }: Steps, terms: Float64Array): Passed {
  const clockPerMs = terms[0]!;
  const motor = terms[1]!;
  const biasVariance = terms[2]!;
  const a = terms[3]!;
  const settled = terms[4]!;
  let z = terms[5]!;
  let m = z;
  let b = 0;
  let s = 0;
  let mm = terms[6]! ** 2;
  let zm = mm;
  let zz = mm + settled;
  let zb = 0;
  let zs = 0;
  let mb = 0;
  let ms = 0;
  let bb = 0;
  let bs = 0;
  let ss = 0;
  let logLikelihood = 0;
  let now = at[0] ?? 0;
  let pending = -1;
  let free = false;
  const keeps = kept.length > 0;
  for (let step = 0; step < kind.length; step++) {
    const gap = at[step]! - now;
    if (gap > 0) {
      now = at[step]!;
      zz += clockPerMs * gap;
      if (free) {
        z += b * gap;
        zz += gap * (2 * zb + gap * bb);
        zm += gap * mb;
        zs += gap * bs;
        zb += gap * bb;
      }
    }
    if (keeps) {
      const place = step * KEPT;
      kept[place] = z;
      kept[place + 1] = m;
      kept[place + 2] = b;
      kept[place + 3] = zz;
      kept[place + 4] = zm;
      kept[place + 5] = zb;
      kept[place + 6] = mm;
      kept[place + 7] = mb;
      kept[place + 8] = bb;
      kept[place + 9] = free ? 1 : 0;
    }
    const which = index[step]!;
    switch (kind[step]) {
      case STEP.note: {
        const y = asynchrony[which]!;
        if (Number.isNaN(y)) break;
        const v = zz + motor;
        const e = y - z;
        logLikelihood -= 0.5 * ((e * e) / v + Math.log(v) + LOG_TWO_PI);
        const kz = zz / v;
        const km = zm / v;
        const kb = zb / v;
        const ks = zs / v;
        z += kz * e;
        m += km * e;
        b += kb * e;
        s += ks * e;
        mm -= km * zm;
        mb -= km * zb;
        ms -= km * zs;
        bb -= kb * zb;
        bs -= kb * zs;
        ss -= ks * zs;
        zm -= kz * zm;
        zb -= kz * zb;
        zs -= kz * zs;
        zz -= kz * zz;
        break;
      }
      case STEP.silenceStarts:
        free = true;
        bb = biasVariance;
        break;
      case STEP.silenceEnds:
        free = false;
        b = zb = mb = bb = bs = 0;
        break;
      case STEP.markStarts:
        if (pending >= 0) {
          drift[pending] = s;
          driftVariance[pending] = ss;
        }
        pending = which;
        s = z;
        ss = zz;
        zs = zz;
        ms = zm;
        bs = zb;
        break;
      case STEP.markEnds:
        // s becomes the drift z - s.
        ss = zz - 2 * zs + ss;
        zs = zz - zs;
        ms = zm - ms;
        bs = zb - bs;
        s = z - s;
        break;
      default: {
        const y = which >= 0 ? asynchrony[which]! : Number.NaN;
        if (!Number.isNaN(y)) {
          z -= a * (y - m);
          zz += a * (2 * zm + a * mm);
          zs += a * ms;
          zb += a * mb;
          zm += a * mm;
        } else {
          const keep = 1 - a;
          z = keep * z + a * m;
          zz = keep * keep * zz + 2 * a * keep * zm + a * a * mm;
          zs = keep * zs + a * ms;
          zb = keep * zb + a * mb;
          zm = keep * zm + a * mm;
        }
      }
    }
  }
  if (pending >= 0) {
    drift[pending] = s;
    driftVariance[pending] = ss;
  }
  return { logLikelihood, offset: m, offsetVariance: mm, drift, driftVariance };
}

/** Variance of the phase of a player long accompanied: (clock^2 + a^2 motor^2) / (a (2 - a)); from Vorberg & Schulze 2002 (from memory), less the motor delay of the note itself. */
export function settledVariance({ clock, motor, correction: a }: Noise): number {
  return (clock ** 2 + a ** 2 * motor ** 2) / (a * (2 - a));
}
