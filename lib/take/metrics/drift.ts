import type { PlayedOnsets } from "../onsets.js";
import { passOver } from "../state/filter.js";
import { firstAtOrAfter, type Guide, type Stretch } from "../state/guide.js";
import type { Reading } from "../state/reading.js";
import { normalWithin } from "./normal.js";

/** Posterior of a drift: a mixture of normal distributions, ms. */
export interface Belief {
  readonly parts: readonly { readonly weight: number; readonly mean: number; readonly sd: number }[];
  readonly mean: number;
  readonly sd: number;
}

// Rivals of less weight than exp(-4.6), 1 in 100, against the likeliest move no figure that is shown; at most so many are weighed for each stretch.
const LEAST_LOG_WEIGHT = -4.6;
const RIVALS_AT_MOST = 16;
// A rival can move the drift when it differs no further than this from the stretch; and what lies further off than that bears on no drift,
// the player being corrected on every beat between (our choice: after 12 beats 0.64^12, half a per cent, is left).
const TOUCHES_BEATS = 2;
const BEARS_BEATS = 12;
// A pairing that moves the drift by more than this many standard errors is a rival, kept as a part of its own; nearer ones only widen the belief.
const RIVAL = 3;
/** Rivals of at least this weight together are "almost equally likely" (our choice: one in five leaves no verdict standing). */
export const RIVAL_WEIGHT = 0.2;

// No player keeps to the model: with its own intervals of 90 % players of other laws are covered 86 to 87 times in 100 (measured), for which a
// normal distribution needs so much more. Our choice: the least that reaches 88 without leaving the players of the model above 92.
const ALLOWANCE = 1.06;

interface Move {
  readonly weight: number;
  readonly by: number;
}

/** Posterior of the drift over each stretch, averaged over the likely noise settings and the likely pairings. */
export function believeDrifts(reading: Reading, played: PlayedOnsets): Belief[] {
  const { guide, fit } = reading;
  const moves = movesByRivals(reading, played);
  return guide.stretches.map((_, index) => {
    const own = mixtureOf(
      fit.points.map(({ weight, passed }) => ({
        weight,
        mean: passed.drift[index]!,
        sd: ALLOWANCE * Math.sqrt(passed.driftVariance[index]!),
      })),
    );
    // Pairings that differ in other places are independent of each other: each moves the drift by so much, with its own chance.
    let shift = 0;
    let variance = 0;
    const rivals: Move[] = [];
    for (const { weight, by } of moves[index]!) {
      const chance = weight / (1 + weight);
      if (Math.abs(by) > RIVAL * own.sd) rivals.push({ weight, by });
      else {
        shift += chance * by;
        variance += chance * (1 - chance) * by * by;
      }
    }
    const widened = own.parts.map((part) => ({
      ...part,
      mean: part.mean + shift,
      sd: Math.sqrt(part.sd ** 2 + variance),
    }));
    const sd = Math.sqrt(own.sd ** 2 + variance);
    return mixtureOf([...widened, ...rivals.map(({ weight, by }) => ({ weight, mean: own.mean + by, sd }))]);
  });
}

/** Per stretch, how far each rival pairing moves its drift, ms, and the weight of that pairing against the likeliest. */
function movesByRivals({ guide, fit, paired, prior, asynchrony }: Reading, played: PlayedOnsets): Move[][] {
  const late = asynchrony.slice();
  const { noise } = fit.points[0];
  return guide.stretches.map((stretch, index) => {
    const near = guideAround(guide, stretch);
    const [from, to] = placesWithin(guide, stretch, TOUCHES_BEATS);
    const driftNear = (): number => passOver(near, late, noise, prior).drift[index]!;
    let own: number | undefined;
    const moves: Move[] = [];
    for (const { logWeight, changes } of paired.rivals) {
      if (logWeight < LEAST_LOG_WEIGHT || moves.length >= RIVALS_AT_MOST) break;
      if (changes[0]![0] >= to || changes.at(-1)![0] < from) continue;
      own ??= driftNear();
      for (const [place, onset] of changes)
        late[place] = onset < 0 ? Number.NaN : played.at[onset]! - guide.expected[place]!;
      moves.push({ weight: Math.exp(logWeight), by: driftNear() - own });
      for (const [place] of changes) late[place] = asynchrony[place]!;
    }
    return moves;
  });
}

/** The part of a walk that bears on one stretch. */
function guideAround(guide: Guide, { from, to }: Stretch): Guide {
  const margin = BEARS_BEATS * guide.beatMs;
  const first = firstAtOrAfter(guide.at, from - margin);
  const last = firstAtOrAfter(guide.at, to + margin);
  return {
    ...guide,
    kind: guide.kind.subarray(first, last),
    at: guide.at.subarray(first, last),
    index: guide.index.subarray(first, last),
  };
}

function placesWithin(guide: Guide, { from, to }: Stretch, beats: number): [from: number, to: number] {
  const margin = beats * guide.beatMs;
  return [firstAtOrAfter(guide.expected, from - margin), firstAtOrAfter(guide.expected, to + margin)];
}

/** The drift under another reading of the stretch, when such readings are almost as likely as the likeliest. */
export function rivalOf({ parts }: Belief): number | undefined {
  const first = parts[0]!;
  const far = parts.filter(({ mean, sd }) => Math.abs(mean - first.mean) > RIVAL * Math.max(sd, first.sd));
  const weight = far.reduce((sum, part) => sum + part.weight, 0);
  return weight >= RIVAL_WEIGHT / (1 + RIVAL_WEIGHT) ? far[0]!.mean : undefined;
}

export function mixtureOf(parts: Belief["parts"]): Belief {
  const total = parts.reduce((sum, { weight }) => sum + weight, 0);
  const scaled = parts.map((part) => ({ ...part, weight: part.weight / total }));
  const mean = scaled.reduce((sum, part) => sum + part.weight * part.mean, 0);
  const variance = scaled.reduce((sum, part) => sum + part.weight * (part.sd ** 2 + (part.mean - mean) ** 2), 0);
  return { parts: scaled, mean, sd: Math.sqrt(variance) };
}

/** Probability that the true value lies within `limit` of 0, either way. */
export function probabilityWithin(belief: Belief, limit: number): number {
  return belief.parts.reduce((sum, { weight, mean, sd }) => sum + weight * normalWithin(limit, mean, sd), 0);
}
