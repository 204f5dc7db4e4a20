import { beliefsOver } from "./filter.js";
import { BACK, type Guide, STEP } from "./guide.js";
import type { Noise } from "./noise.js";
import {
  advanceBack,
  BELIEF,
  type OffsetPrior,
  observeBack,
  smoothedMean,
  smoothedVariance,
  takeBackBack,
  takeUpBack,
} from "./space.js";

/** The player's time along a take, given all of it; one entry an instant at which anything happens, ascending. Milliseconds. */
export interface Smoothed {
  readonly at: Float64Array;
  /** Asynchrony, constant offset included, before the correction on a beat of that instant. */
  readonly mean: Float64Array;
  readonly variance: Float64Array;
}

/**
 * The asynchrony along a take by fixed-interval smoothing: the filter forwards, then the same steps backwards (checked against the joint normal
 * distribution conditioned in one go in the tests).
 *
 * @param asynchrony per expected onset, ms; NaN where it was not played
 */
export function smoothOver(guide: Guide, asynchrony: Float64Array, noise: Noise, prior: OffsetPrior): Smoothed {
  const { kind, at, index } = guide;
  const motor = noise.motor ** 2;
  const share = noise.correction;
  const beliefs = beliefsOver(guide, asynchrony, noise, prior);
  const later = new Float64Array(BELIEF);
  const instants: number[] = [];
  const mean: number[] = [];
  const variance: number[] = [];
  // Whether the player's time ran free on the way to the step.
  let free = false;
  for (let step = kind.length - 1; step >= 0; step--) {
    const belief = beliefs.subarray(step * BELIEF, (step + 1) * BELIEF);
    const which = index[step]!;
    switch (kind[step]) {
      case STEP.note: {
        const y = asynchrony[which]!;
        if (!Number.isNaN(y)) observeBack(later, belief, y, motor);
        break;
      }
      case STEP.silenceStarts:
      case STEP.silenceEnds:
        free = kind[step] === STEP.silenceEnds;
        takeUpBack(later);
        break;
      case STEP.beat:
        takeBackBack(later, which === BACK ? 1 : share, which >= 0 ? asynchrony[which]! : Number.NaN);
    }
    const gap = step === 0 ? 0 : at[step]! - at[step - 1]!;
    if (step > 0 && gap <= 0) continue;
    instants.push(at[step]!);
    mean.push(smoothedMean(later, belief));
    variance.push(smoothedVariance(later, belief));
    if (free) advanceBack(later, gap);
  }
  const inOrder = (values: readonly number[]): Float64Array => Float64Array.from(values).reverse();
  return { at: inOrder(instants), mean: inOrder(mean), variance: inOrder(variance) };
}
