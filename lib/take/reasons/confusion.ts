import type { Score } from "../../schema/index.js";
import { normalBelow } from "../metrics/normal.js";
import { keyNumber } from "../onsets.js";
import { firstAtOrAfter } from "../state/guide.js";
import type { Reading } from "../state/reading.js";

/** A stretch is too dense for its player when more than this share of notes may fall nearer to a neighbour's place (our choice; the bench shows 3 % wrong readings at most). */
export const MOST_CONFUSION = 0.08;

/**
 * Per stretch, the chance that a note falls nearer to a neighbouring place than to its own, given how well its time can be foretold:
 * 2 (1 - Φ(half the gap / sqrt(v))), v = the steady prediction variance of the time model plus the motor variance. Neighbours of another
 * pitch class do not count when the take knows pitches. 0 for a stretch without notes.
 */
export function confusionIn(score: Score, { guide, fit }: Reading, pitched: boolean): number[] {
  const noise = fit.points.reduce((best, point) => (point.weight > best.weight ? point : best)).noise;
  const r = noise.motor ** 2;
  return guide.stretches.map(({ from, to }) => {
    let sum = 0;
    let notes = 0;
    for (let place = firstAtOrAfter(guide.expected, from); guide.expected[place]! <= to; place++) {
      const at = guide.expected[place]!;
      notes++;
      const gap = gapToLookalike(score, guide.expected, guide.source, place, pitched);
      const waited = at - (guide.expected[place - 1] ?? at - gap);
      const q = (noise.clock ** 2 * waited) / guide.beatMs;
      // Steady state of the scalar Riccati equation p = q + p r / (p + r), from memory, checked in the tests.
      const predicted = (q + Math.sqrt(q * q + 4 * q * r)) / 2;
      sum += 2 * (1 - normalBelow(gap / 2 / Math.sqrt(predicted + r)));
    }
    return notes === 0 ? 0 : sum / notes;
  });
}

function gapToLookalike(
  score: Score,
  expected: Float64Array,
  source: Int32Array,
  place: number,
  pitched: boolean,
): number {
  const pitchAt = (k: number): number => keyNumber(source[k]! < 0 ? undefined : score.expected[source[k]!]!.pitch);
  const own = pitched ? pitchAt(place) : Number.NaN;
  let least = Number.POSITIVE_INFINITY;
  for (const next of [place - 1, place + 1]) {
    if (next < 0 || next >= expected.length) continue;
    const apart = pitched ? pitchAt(next) - own : 0;
    const differs = !Number.isNaN(apart) && apart % 12 !== 0;
    if (!differs) least = Math.min(least, Math.abs(expected[next]! - expected[place]!));
  }
  return least;
}
