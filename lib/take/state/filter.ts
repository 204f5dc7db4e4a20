import { BACK, type Guide, STEP } from "./guide.js";
import { type Noise, wanderPerMs } from "./noise.js";
import {
  advance,
  advanceMark,
  BELIEF,
  begin,
  expectedOf,
  letGo,
  MARK,
  markChange,
  markedOf,
  markedVarianceOf,
  markNow,
  type OffsetPrior,
  observe,
  observeMark,
  offsetOf,
  offsetVarianceOf,
  takeBack,
  takeBackMark,
  takeUp,
  takeUpMark,
  turnBack,
  varianceOf,
} from "./space.js";

/** How well a take agrees with the model under a pairing and a noise, and what it says of the constant offset. Milliseconds. */
export interface Likelihood {
  /** Log-likelihood of the asynchronies. */
  readonly logLikelihood: number;
  readonly offset: number;
  readonly offsetVariance: number;
}

/** The player's time after a pass over a take with the pairing given. Milliseconds. */
export interface Passed extends Likelihood {
  /** Per stretch, drift and its variance given everything played until the next marked stretch begins (or the take ends). */
  readonly drift: Float64Array;
  readonly driftVariance: Float64Array;
}

/**
 * One Kalman pass over a take.
 *
 * @param asynchrony per expected onset, ms; NaN where it was not played
 */
export function likelihoodOver(guide: Guide, asynchrony: Float64Array, noise: Noise, prior: OffsetPrior): Likelihood {
  return walk(guide, asynchrony, { noise, prior });
}

/**
 * The same pass with the drift over each stretch: the change of the asynchrony from its start to its end, kept as a mark so that later notes
 * refine it (checked against batch least squares in the tests).
 */
export function passOver(guide: Guide, asynchrony: Float64Array, noise: Noise, prior: OffsetPrior): Passed {
  const drift = new Float64Array(guide.stretches.length).fill(Number.NaN);
  const driftVariance = drift.slice();
  const marks = { mark: new Float64Array(MARK), stretch: -1, asynchrony, noise, drift, driftVariance };
  const passed = walk(guide, asynchrony, { noise, prior, marks });
  close(marks);
  return { ...passed, drift, driftVariance };
}

/** The beliefs before each step of the same pass, `BELIEF` numbers a step. */
export function beliefsOver(guide: Guide, asynchrony: Float64Array, noise: Noise, prior: OffsetPrior): Float64Array {
  const kept = new Float64Array(guide.kind.length * BELIEF);
  walk(guide, asynchrony, { noise, prior, kept });
  return kept;
}

interface Terms {
  readonly noise: Noise;
  readonly prior: OffsetPrior;
  /** Filled with the belief before each step. */
  readonly kept?: Float64Array;
  readonly marks?: Marks;
}

interface Marks extends Pick<Passed, "drift" | "driftVariance"> {
  readonly mark: Float64Array;
  readonly asynchrony: Float64Array;
  readonly noise: Noise;
  /** The stretch the mark is of; -1 before the first. */
  stretch: number;
}

// Factors of a likelihood are multiplied up to this before their logarithm is taken: far below the largest double, whatever the next factor.
const LARGE = 1e200;
const LOG_TWO_PI = Math.log(2 * Math.PI);

function walk(guide: Guide, asynchrony: Float64Array, { noise, prior, kept, marks }: Terms): Likelihood {
  const { kind, at, index, beatMs } = guide;
  const motor = noise.motor ** 2;
  const clockPerMs = noise.clock ** 2 / beatMs;
  const share = noise.correction;
  const wander = wanderPerMs(noise, beatMs);
  const belief = new Float64Array(BELIEF);
  begin(belief, prior, noise);
  let squares = 0;
  let variances = 1;
  let logVariances = 0;
  let now = at[0] ?? 0;
  let free = false;
  for (let step = 0; step < kind.length; step++) {
    const gap = at[step]! - now;
    if (gap > 0) {
      now = at[step]!;
      if (free && marks !== undefined) advanceMark(marks.mark, gap);
      advance(belief, gap, clockPerMs * gap, free ? wander : undefined);
    }
    kept?.set(belief, step * BELIEF);
    if (marks !== undefined) meetMark(guide, marks, belief, step);
    const which = index[step]!;
    switch (kind[step]) {
      case STEP.note: {
        const y = asynchrony[which]!;
        if (Number.isNaN(y)) break;
        const v = varianceOf(belief) + motor;
        const e = y - expectedOf(belief);
        squares += (e * e) / v + LOG_TWO_PI;
        variances *= v;
        if (variances > LARGE || variances < 1 / LARGE) {
          logVariances += Math.log(variances);
          variances = 1;
        }
        observe(belief, y, motor);
        break;
      }
      case STEP.silenceStarts:
        free = true;
        letGo(belief, noise.bias ** 2);
        break;
      case STEP.silenceEnds:
        free = false;
        takeUp(belief);
        break;
      case STEP.beat:
        if (which === BACK) turnBack(belief);
        else takeBack(belief, share, which >= 0 ? asynchrony[which]! : Number.NaN);
    }
  }
  const logLikelihood = 0 - 0.5 * (squares + logVariances + Math.log(variances));
  return { logLikelihood, offset: offsetOf(belief), offsetVariance: offsetVarianceOf(belief) };
}

/** What a step does to the mark, by the belief before it. */
function meetMark({ kind, index }: Guide, marks: Marks, belief: Float64Array, step: number): void {
  const { mark, asynchrony, noise } = marks;
  const which = index[step]!;
  switch (kind[step]) {
    case STEP.note: {
      const y = asynchrony[which]!;
      if (!Number.isNaN(y)) observeMark(mark, belief, y, noise.motor ** 2);
      break;
    }
    case STEP.silenceEnds:
      takeUpMark(mark);
      break;
    case STEP.markStarts:
      close(marks);
      marks.stretch = which;
      markNow(mark, belief);
      break;
    case STEP.markEnds:
      markChange(mark, belief);
      break;
    case STEP.beat:
      takeBackMark(mark, which === BACK ? 1 : noise.correction, which >= 0 ? asynchrony[which]! : Number.NaN);
  }
}

/** The drift over the stretch of the mark is what it is by now. */
function close({ mark, stretch, drift, driftVariance }: Marks): void {
  if (stretch < 0) return;
  drift[stretch] = markedOf(mark);
  driftVariance[stretch] = markedVarianceOf(mark);
}
