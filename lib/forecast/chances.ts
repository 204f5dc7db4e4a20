import { normalBelow, normalWithin } from "../take/index.js";
import { CATCHING_UP_BEATS, CLOCK_TO_MOTOR, type Demand, type SilenceAsked } from "./demand.js";
import { MIDDLE_BEAT_MS, type Traits } from "./traits.js";

/** Chances of the three verdicts of a take. They add up to 1. */
export interface Chances {
  /** Within tolerance. */
  readonly clean: number;
  readonly beyond: number;
  readonly unclear: number;
}

/** Distribution of the figures of a take for a player with given traits. Milliseconds. */
export interface TakeDistribution {
  /** One for each sort of silence of the demand, in its order. */
  readonly drifts: readonly Drift[];
  /** Median of the steadiness while accompanied, and SD of its logarithm. */
  readonly steadiness: number;
  readonly steadinessSd: number;
}
interface Drift {
  /** Mean and SD of the measured drift. */
  readonly mean: number;
  readonly sd: number;
  /** SD of the true drift about the measured one: the standard error of the measurement. */
  readonly error: number;
  /** SD of the landing note about the drift. */
  readonly landing: number;
}

/** Standard errors by which a value must lie inside its tolerance to be judged within: 90 %, one-sided, as lib/take/verdict.ts has it. */
export const Z_SURE = 1.2815515655446004;
/** Tolerance in standard errors below which nothing can be judged within: 90 %, two-sided. */
const Z_BOTH = 1.6448536269514722;
/** Phase correction: share of an asynchrony taken back on each beat that sounds, as assessing assumes it (lib/take/state/noise.ts). */
const CORRECTION = 0.36;
/** SD of the logarithm of a player's steadiness from take to take, beyond sampling error: days differ. Our choice. */
const DAILY = 0.1;
/** Share of lapses that are judged beyond; the others are unclear. Our choice. */
const LAPSE_BEYOND = 0.7;
/** Intervals of Simpson's rule: enough for three digits. */
const STEPS = 12;

/** Distribution of the figures of a take: the time model of lib/take, propagated to these silences. */
export function distributionOf(traits: Traits, demand: Demand): TakeDistribution {
  const motor = Math.exp(traits.motor + traits.form);
  const clock = motor * Math.exp(traits.clock);
  const bias = clock * Math.exp(traits.bias);
  const a = CORRECTION;
  // Stationary variance of the phase of an accompanied player (Vorberg & Schulze 2002, from memory), without the motor delay of the note itself.
  const settled = (clock ** 2 + a ** 2 * motor ** 2) / (a * (2 - a));
  let recovering = 0;
  const drifts = demand.silences.map((silence): Drift => {
    const mean = silence.silent
      ? (traits.tempo + traits.pull * Math.log(silence.ms / silence.beats / MIDDLE_BEAT_MS)) * silence.ms
      : 0;
    const free = clock ** 2 * silence.beats + (bias * silence.ms) ** 2;
    const variance = silence.silent ? free : 2 * settled * (1 - (1 - a) ** silence.beats);
    const error = motor * errorAt(silence, traits.clock);
    recovering += silence.count * (variance + mean ** 2);
    // The measured drift is the best estimate. The true drift scatters about it, so the measured one scatters less than the true one.
    const sd = Math.sqrt(Math.max(variance - error ** 2, 0.1 * variance));
    return { mean, sd, error, landing: Math.sqrt(settled + motor ** 2 + error ** 2) };
  });
  // The rest of a drift after the beats not counted shrinks by the factor 1 - a in each beat, and adds to the steadiness.
  const tail = (1 - a) ** (2 * CATCHING_UP_BEATS) / (1 - (1 - a) ** 2);
  const still = settled + motor ** 2;
  const steadiness = Math.sqrt(still + (recovering * tail) / demand.accompaniedBeats);
  // Effective sample size: notes that follow each other share their phase, so n notes tell as much as n / (1 + 2 sum of squared
  // correlations), a geometric sum.
  const decay = (1 - a) ** ((2 * demand.accompaniedBeats) / Math.max(1, demand.accompaniedNotes));
  const shared = ((settled / still) ** 2 * decay) / (1 - decay);
  const chance = Math.sqrt((1 + 2 * shared) / (2 * Math.max(2, demand.accompaniedNotes)));
  const steadinessSd = Math.hypot(chance, DAILY);
  return { drifts, steadiness, steadinessSd };
}

/**
 * Chances of the verdicts of a take for a player with given traits. Every silence and the steadiness are judged as lib/take judges them
 * (within when 90 % sure of that, beyond when 90 % sure of that), and are independent given the traits.
 */
export function chancesOf(traits: Traits, demand: Demand): Chances {
  const { drifts, steadiness, steadinessSd } = distributionOf(traits, demand);
  const z = Math.log(demand.steadinessMs / steadiness) / steadinessSd;
  const margin = Z_SURE / Math.sqrt(2 * Math.max(1, demand.accompaniedNotes - 1)) / steadinessSd;
  let clean = demand.steadinessMs === Number.POSITIVE_INFINITY ? 1 : normalBelow(z - margin);
  let passable = demand.steadinessMs === Number.POSITIVE_INFINITY ? 1 : normalBelow(z + margin);
  drifts.forEach((drift, i) => {
    const silence = demand.silences[i]!;
    const landing = silence.returns ? demand.landingMs : Number.POSITIVE_INFINITY;
    // Landings are measured from the player's own offset. Its standard error is that of a mean of so many notes.
    const slack = (Z_SURE * steadiness) / Math.sqrt(Math.max(4, demand.accompaniedNotes / 3));
    const inside = withinBoth(drift, surelyWithin(silence.limitMs, drift.error), landing - slack);
    const notOut = withinBoth(drift, silence.limitMs + Z_SURE * drift.error, landing + slack);
    clean *= inside ** silence.count;
    passable *= notOut ** silence.count;
  });
  const lapse = 1 / (1 + Math.exp(-traits.lapse));
  clean *= 1 - lapse;
  const beyond = (1 - lapse) * (1 - passable) + lapse * LAPSE_BEYOND;
  return { clean, beyond, unclear: Math.max(0, 1 - clean - beyond) };
}

/** Standard error of a measured drift for each ms of motor noise, at a ratio of clock to motor noise (its logarithm), by linear interpolation. */
function errorAt({ errors }: SilenceAsked, logRatio: number): number {
  const place = (logRatio - Math.log(CLOCK_TO_MOTOR[0]!)) / Math.LN2;
  const below = Math.max(0, Math.min(errors.length - 2, Math.floor(place)));
  const share = Math.max(0, Math.min(1, place - below));
  return errors[below]! * (1 - share) + errors[below + 1]! * share;
}

/** Largest measured drift (either side) that is still judged within `limit`; -1 when none is. */
function surelyWithin(limit: number, error: number): number {
  const k = limit / error;
  if (k >= 2.2) return limit - Z_SURE * error;
  return k < Z_BOTH ? -1 : (error * (k - Z_BOTH) * (2.2 - Z_SURE)) / (2.2 - Z_BOTH);
}

/** Chance that the measured drift lies within `limit` and the note that follows it within `landingLimit`, by Simpson's rule. */
function withinBoth({ mean, sd, landing }: Drift, limit: number, landingLimit: number): number {
  if (limit < 0 || landingLimit <= 0) return 0;
  if (landingLimit === Number.POSITIVE_INFINITY) return limit === landingLimit ? 1 : normalWithin(limit, mean, sd);
  const from = Math.max(-limit, mean - 5 * sd);
  const to = Math.min(limit, mean + 5 * sd);
  if (from >= to) return 0;
  const width = (to - from) / STEPS;
  let sum = 0;
  for (let i = 0; i <= STEPS; i++) {
    const x = from + i * width;
    const weight = i === 0 || i === STEPS ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * Math.exp(-0.5 * ((x - mean) / sd) ** 2) * normalWithin(landingLimit, x, landing);
  }
  return Math.min(1, (sum * width) / (3 * sd * Math.sqrt(2 * Math.PI)));
}
