import type { Score } from "../../schema/index.js";
import { robustDeviation } from "../metrics/statistics.js";
import type { PlayedOnsets } from "../onsets.js";
import { ADDING_WHEN_OPEN, type Chances, chancesAfter } from "./chances.js";
import { evidenceOf } from "./evidence.js";
import { type Fit, findMode, fitAround } from "./fit.js";
import { type Guide, guideOf, nearestFrom, turningBack } from "./guide.js";
import { type NoisePoint, noiseAt, pointAtLevel } from "./noise.js";
import { type Paired, type PairingTerms, pairOnsets } from "./pairing.js";
import type { OffsetPrior } from "./space.js";

/** The likeliest pairing of a take, and the posterior of the noise under it. */
export interface Reading {
  readonly guide: Guide;
  /** Indices are places of the guide and onsets in order of time. */
  readonly paired: Paired;
  /** Per place, asynchrony under the likeliest pairing, ms; NaN where nothing was played. */
  readonly asynchrony: Float64Array;
  readonly fit: Fit;
  /** For judging drift: the offset left open. */
  readonly prior: OffsetPrior;
  /** What the pairing was found under; for weighing other explanations. */
  readonly logAdded: Float64Array;
  readonly assumed: PairingTerms;
}

/**
 * Prior of the constant offset when the latency is not known: people tap 20-60 ms early (Aschersleben & Prinz 1995 and others), and
 * uncalibrated recordings add some tens of ms either way (our choice). Used for pairing; drift is then judged with a wider one.
 */
const UNTOLD_OFFSET: OffsetPrior = { mean: -25, sd: 60 };
const HABIT: OffsetPrior = { mean: -35, sd: 30 };
/** Wide enough that a shift of the whole take moves no drift by a measurable amount (our choice). */
const OPEN_OFFSET_SD = 400;

// How far the noise may be from what the pairing assumed before it is paired again, in natural logarithms, and how often; where other pairings
// come near, their weights hang on it.
const SAME_LEVEL = 0.3;
const SAME_LEVEL_IF_RIVALS = 0.02;
const RIVAL_LOG_WEIGHT = -4;
const PAIRINGS_AT_MOST = 4;
// Newton steps of a fit at most: three or four settle it, and two do for a fit that is made again (our choice).
const FIT_ROUNDS = 5;
const ROUGH_FIT_ROUNDS = 2;

export interface ReadingOptions {
  /** Known latency, already taken off the onsets, and its standard error; `undefined` when unknown. */
  readonly latencyStandardErrorMs?: number | undefined;
  /** Timing noise of the recording itself, ms. */
  readonly floorMs: number;
}

/** Prior for a player before the first note: the constant offset, and the chances of leaving out and adding notes. */
export function beforeTake(
  score: Score,
  latencyStandardErrorMs: number | undefined,
): { offset: OffsetPrior; chances: Chances } {
  const habit =
    latencyStandardErrorMs === undefined
      ? UNTOLD_OFFSET
      : { mean: HABIT.mean, sd: Math.hypot(HABIT.sd, latencyStandardErrorMs) };
  const durationMs = Math.max(1, score.duration * 1000);
  const { missing } = chancesAfter({ notes: 0, missed: 0, added: 0 }, durationMs);
  return { offset: habit, chances: { missing, adding: (missing * Math.max(1, score.expected.length)) / durationMs } };
}

/** Pairs a take and fits its noise, in turns, until the level of the noise stays the same. */
export function readTake(score: Score, played: PlayedOnsets, options: ReadingOptions): Reading {
  const written = guideOf(score);
  let { offset, chances } = beforeTake(score, options.latencyStandardErrorMs);
  const prior = { mean: offset.mean, sd: OPEN_OFFSET_SD };
  const evidence = evidenceOf(score, written, played);
  let point: NoisePoint = pointAtLevel(roughLevel(written, played));
  for (let round = 1; ; round++) {
    const logAdded = additionRates(score, played, chances);
    const assumed = { noise: noiseAt(point, options.floorMs), prior: offset, missing: chances.missing };
    const paired = pairOnsets(written, { at: played.at, logAdded, ...(evidence && { evidence }) }, assumed);
    const guide = turningBack(written, paired.turnsBack);
    const asynchrony = asynchronies(guide, played, paired.onsets);
    const rivals = (paired.rivals[0]?.logWeight ?? Number.NEGATIVE_INFINITY) > RIVAL_LOG_WEIGHT;
    const fitting = { prior, floorMs: options.floorMs, start: point };
    const again = rivals && round === 1;
    const mode = findMode(guide, asynchrony, { ...fitting, rounds: again ? ROUGH_FIT_ROUNDS : FIT_ROUNDS });
    const apart = Math.abs(mode.point[0] - point[0]);
    const near = !again && apart < (rivals ? SAME_LEVEL_IF_RIVALS : SAME_LEVEL);
    if (near || round === PAIRINGS_AT_MOST) {
      return { guide, paired, assumed, logAdded, asynchrony, fit: fitAround(guide, asynchrony, mode, fitting), prior };
    }
    point = mode.point;
    chances = learntChances(score, guide, played, paired.onsets);
    offset = { mean: mode.offset, sd: offset.sd };
  }
}

/**
 * The logarithm of a likelihood ratio against "every onset is an addition" as that of a density of the onsets, each per ms: readings that
 * assume other rates of adding can be compared by it.
 */
export function logDensityOf(logLikelihood: number, { logAdded }: Pick<Reading, "logAdded">): number {
  return logAdded.reduce((sum, each) => sum + each, logLikelihood);
}

/** Per place, how late the paired onset was, ms; NaN where there is none. */
export function asynchronies({ expected }: Guide, { at }: PlayedOnsets, onsets: Int32Array): Float64Array {
  return Float64Array.from(onsets, (onset, place) => (onset < 0 ? Number.NaN : at[onset]! - expected[place]!));
}

function additionRates(score: Score, played: PlayedOnsets, chances: Chances): Float64Array {
  const usual = Math.log(chances.adding);
  const open = Math.log(Math.max(ADDING_WHEN_OPEN, chances.adding));
  const rates = new Float64Array(played.at.length).fill(usual);
  for (const { from, to } of score.open) {
    for (let i = 0; i < rates.length; i++) {
      if (played.at[i]! >= from * 1000 && played.at[i]! < to * 1000) rates[i] = open;
    }
  }
  return rates;
}

function learntChances(score: Score, guide: Guide, played: PlayedOnsets, onsets: Int32Array): Chances {
  let missed = 0;
  let taken = 0;
  for (let place = 0; place < onsets.length; place++) {
    if (onsets[place]! >= 0) taken++;
    else if (guide.source[place]! >= 0) missed++;
  }
  const notes = score.expected.length;
  return chancesAfter({ notes, missed, added: played.at.length - taken }, score.duration * 1000);
}

// Limits of the level a pairing starts from, ms: steadier than any player, and so wild that nothing can be told. Our choice.
const LEAST_LEVEL = 4;
const MOST_LEVEL = 60;
// The level (geometric mean of clock and motor) of a player whose asynchronies while accompanied have SD 1, under the prior's ratio and
// correction: 1 / sqrt((1 + (r^2 + a^2) / (a (2 - a))) / r) with r = .9, a = .36; a fifth more, since too tight a start loses the player.
const LEVEL_PER_SD = 0.7;

/** A first guess at the noise level: the deviation of the distance to the nearest onset, robust against what was missed or added. */
function roughLevel(guide: Guide, played: PlayedOnsets): number {
  const distances: number[] = [];
  let onset = 0;
  let stretch = 0;
  for (let place = 0; place < guide.expected.length; place++) {
    const at = guide.expected[place]!;
    while (stretch < guide.stretches.length && guide.stretches[stretch]!.to < at) stretch++;
    const apart = stretch < guide.stretches.length && at > guide.stretches[stretch]!.from;
    if (guide.source[place]! < 0 || apart) continue;
    onset = nearestFrom(played.at, onset, at);
    if (onset < played.at.length) distances.push(played.at[onset]! - at);
  }
  if (distances.length < 4) return MOST_LEVEL / 3;
  return Math.min(MOST_LEVEL, Math.max(LEAST_LEVEL, LEVEL_PER_SD * robustDeviation(distances)));
}
