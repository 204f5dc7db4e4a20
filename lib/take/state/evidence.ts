import type { Score } from "../../schema/index.js";
import { mean } from "../metrics/statistics.js";
import { keyNumber, type PlayedOnsets } from "../onsets.js";
import { type Guide, nearestFrom } from "./guide.js";

/** Log-likelihood ratio of "this onset is that note" against "it is an addition", from everything but time. */
export type Evidence = (place: number, onset: number) => number;

/** What was played, in order of time, ready for pairing. */
export interface Played {
  /** Milliseconds from the downbeat of bar 1, ascending. */
  readonly at: Float64Array;
  /** Natural logarithm of the rate of unexpected onsets at each onset, per ms. */
  readonly logAdded: Float64Array;
  readonly evidence?: Evidence;
}

// Our choice: a student plays the written pitch class 19 times in 20; an addition is any of 12.
const RIGHT_PITCH = 0.95;
const AGREES = Math.log(RIGHT_PITCH * 12);
const DIFFERS = Math.log(((1 - RIGHT_PITCH) * 12) / 11);
/** Evidence below this is that of a wrong pitch class, whatever the accents say for it. */
export const SPEAKS_AGAINST = -2;
// Our choice: accented notes are struck harder than plain ones by at least this many standard deviations of velocity, else accents say nothing.
const LEAST_CONTRAST = 0.5;

/** The evidence of pitch and accents; `undefined` when the take or the score knows neither. */
export function evidenceOf(score: Score, guide: Guide, played: PlayedOnsets): Evidence | undefined {
  const byPitch = pitchEvidence(score, guide, played);
  const byAccent = accentEvidence(score, guide, played);
  if (byPitch === undefined) return byAccent;
  if (byAccent === undefined) return byPitch;
  return (place, onset) => byPitch(place, onset) + byAccent(place, onset);
}

function pitchEvidence(score: Score, guide: Guide, played: PlayedOnsets): Evidence | undefined {
  if (played.pitch.every(Number.isNaN)) return undefined;
  const written = Float64Array.from(guide.source, (source) =>
    source < 0 ? Number.NaN : keyNumber(score.expected[source]!.pitch),
  );
  const shift = usualInterval(guide, written, played);
  if (shift === undefined) return undefined;
  return (place, onset) => {
    const interval = played.pitch[onset]! - written[place]! - shift;
    if (Number.isNaN(interval)) return 0;
    return pitchClass(interval) === 0 ? AGREES : DIFFERS;
  };
}

// So many notes show the interval (our choice).
const ENOUGH_KNOWN = 8;

/** Semitones within an octave. */
export const pitchClass = (semitones: number): number => ((Math.round(semitones) % 12) + 12) % 12;

/**
 * The interval, in semitones up to octaves, at which the take sounds against the score: 0, or another when the student's part was recorded
 * transposed. `undefined` when no interval prevails, so that pitch says nothing.
 */
function usualInterval(guide: Guide, written: Float64Array, played: PlayedOnsets): number | undefined {
  const counts = new Float64Array(12);
  // Until the first silence nobody has slipped; with too few notes before it, a few more are counted.
  const guided = guide.stretches.find(({ silent }) => silent)?.from ?? Number.POSITIVE_INFINITY;
  let known = 0;
  let place = 0;
  for (let onset = 0; onset < played.at.length; onset++) {
    place = nearestFrom(guide.expected, place, played.at[onset]!);
    if (known >= ENOUGH_KNOWN && played.at[onset]! > guided) break;
    const interval = played.pitch[onset]! - written[place]!;
    if (Number.isNaN(interval)) continue;
    known++;
    counts[pitchClass(interval)]!++;
  }
  if (known === 0) return undefined;
  const usual = counts.indexOf(Math.max(...counts));
  // Our choice: an interval prevails when a third of the notes show it, four times what chance gives.
  if (counts[0]! >= known / 3) return 0;
  return counts[usual]! >= known / 3 ? usual : undefined;
}

function accentEvidence(score: Score, guide: Guide, played: PlayedOnsets): Evidence | undefined {
  if (played.velocity.every(Number.isNaN)) return undefined;
  const accented = Array.from(guide.source, (source) => source >= 0 && score.expected[source]!.accent === true);
  const share = accented.filter(Boolean).length / Math.max(1, accented.length);
  const velocities = played.velocity.filter((velocity) => !Number.isNaN(velocity)).sort();
  if (share === 0 || share === 1 || velocities.length < 8) return undefined;
  // The loudest `share` of the notes should be the accented ones: the two groups' means and their common deviation.
  const split = Math.round(velocities.length * (1 - share));
  if (split === 0 || split === velocities.length) return undefined;
  const [soft, loud] = [mean(velocities.subarray(0, split)), mean(velocities.subarray(split))];
  const overall = mean(velocities);
  const deviation = Math.sqrt(mean(velocities.map((v) => (v - overall) ** 2)));
  if (!(loud - soft > LEAST_CONTRAST * deviation) || deviation < 1) return undefined;
  return (place, onset) => {
    const velocity = played.velocity[onset]!;
    if (Number.isNaN(velocity) || guide.source[place]! < 0) return 0;
    const target = accented[place] ? loud : soft;
    return (((velocity - overall) / deviation) ** 2 - ((velocity - target) / deviation) ** 2) / 2;
  };
}
