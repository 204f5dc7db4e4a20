import { LANDING_WITHIN_BEATS } from "../../base/index.js";
import type { Score } from "../../schema/index.js";
import { median, robustDeviation } from "../metrics/statistics.js";
import type { PlayedOnsets } from "../onsets.js";
import { type Displacements, displacementsOf } from "./displacements.js";
import { type Evidence, evidenceOf, SPEAKS_AGAINST } from "./evidence.js";
import { playedWithin, scoreWithin } from "./excerpt.js";
import { findMode, fitAround, type Offset, offsetIn } from "./fit.js";
import { firstAtOrAfter, type Guide, guideOf, turningBack } from "./guide.js";
import type { LandingHypothesis } from "./landingHypotheses.js";
import { noiseAt } from "./noise.js";
import { asynchronies, beforeTake, type Reading, type ReadingOptions, readTake } from "./reading.js";
import type { Watched } from "./slipMoves.js";
import { type Tracked, trackSlips } from "./slips.js";

/** A take read with slips: the reading with what was played where it was played, and what became of each landing. */
export interface TrackedReading {
  readonly reading: Reading;
  readonly displacements: Displacements;
  /** Per stretch of the guide, the index of the landing note in the score, or -1: no return, or no note soon enough. */
  readonly landingNotes: readonly number[];
  /** Per stretch of the guide; the pairing alone where it leaves nothing to ask, and empty where there is no landing. */
  readonly hypotheses: readonly (readonly LandingHypothesis[])[];
  /** Per place of the guide, the displacement of the likeliest path; absent when nothing was displaced. The guide has it in its times. */
  readonly places?: Int32Array;
  /** How much later (ms) than it says the take begins, by the likeliest path; absent when it begins where it says. */
  readonly startsAt?: number;
  /** Logarithm of the likelihood ratio against "every onset is an addition": of the pairing, or of the tracker when it is better. */
  readonly logLikelihood: number;
}

// How long after the return the tracker makes up its mind, in beats (our choice).
const CLOSES_AFTER_BEATS = 8;
// Half a millisecond: the rounding of times in a score file.
const ROUNDING_MS = 0.5;
// A silence is looked into when its landing was not found, when so many notes in it and after it are out of order, or when the player's place in
// some passage is so far from that of the first, ms.
const OUT_OF_ORDER = 1;
const ELSEWHERE_MS = 60;
// The noise and offset of the first passage are taken instead of the fit's when the fit is so far from them (ms; logarithm of the level): nobody
// has slipped before the first silence. Of so few notes the level is uncertain, hence the margin.
const OFFSET_APART_MS = 40;
const LEVEL_APART = 1;
const FEWEST_BEFORE = 6;
const LEVEL_MARGIN = Math.log(1.3);
const LEAST_LEVEL_MS = 4;
// The level (geometric mean of clock and motor) of notes with SD 1 while accompanied.
const LEVEL_PER_SD = 0.7;

/** Looks for slips where the reading leaves something to ask, and reads the take again where there are some. */
export function readLandings(
  score: Score,
  reading: Reading,
  { played, options }: { readonly played: PlayedOnsets; readonly options: ReadingOptions },
): TrackedReading {
  const { floorMs } = options;
  const { guide } = reading;
  const displacements = displacementsOf(score);
  const landingPlaces = score.dropouts.map(({ landing }, k) => {
    if (landing === null) return -1;
    const { to } = guide.stretches[k]!;
    const next = guide.stretches[k + 1]?.from ?? Number.POSITIVE_INFINITY;
    let place = firstAtOrAfter(guide.expected, to - ROUNDING_MS);
    while (guide.source[place] === -1) place++;
    const at = guide.expected[place] ?? Number.POSITIVE_INFINITY;
    return at < next && at < to + LANDING_WITHIN_BEATS * guide.beatMsAt(to) - ROUNDING_MS ? place : -1;
  });
  const landingNotes = landingPlaces.map((place) => (place < 0 ? -1 : guide.source[place]!));
  const none = {
    reading,
    displacements,
    landingNotes,
    hypotheses: landingPlaces.map((place) => (place < 0 ? [] : [asPaired(reading.paired.onsets[place]!)])),
    logLikelihood: reading.paired.logLikelihood,
  };
  const evidence = evidenceOf(score, guide, played);
  const suspects = suspectsIn(score, reading, { played, landingPlaces, evidence });
  if (!suspects.includes(true)) return none;
  const silences = guide.stretches.map(({ from, to }, k): Watched => {
    const next = guide.stretches[k + 1]?.from ?? Number.POSITIVE_INFINITY;
    const closes = Math.min(next, to + CLOSES_AFTER_BEATS * guide.beatMsAt(to));
    return { from, to, landing: landingPlaces[k]!, closes, suspect: suspects[k]! };
  });
  const start = startOf(firstPassageOf(score, reading, { played, options }));
  const tracked = trackSlips(
    guide,
    { at: played.at, logAdded: reading.logAdded, ...(evidence && { evidence }) },
    {
      noise: noiseAt(start.point, floorMs),
      prior: start.offset,
      missing: reading.assumed.missing,
      displacements,
      silences,
      follow: reading.paired.onsets,
    },
  );
  const hypotheses = tracked.landings.map((told, k) => (told.length === 0 ? none.hypotheses[k]! : told));
  const logLikelihood = Math.max(reading.paired.logLikelihood, tracked.logLikelihood);
  const started = tracked.places[tracked.onsets.findIndex((onset) => onset >= 0)] ?? 0;
  if (started !== 0) return { ...none, startsAt: displacements.ms[started]!, logLikelihood };
  if (!tracked.places.some((place) => place > 0)) return { ...none, hypotheses, logLikelihood };
  const again = readAlong(score, reading, { tracked, played, displacements, floorMs });
  return { ...again, displacements, landingNotes, hypotheses, logLikelihood };
}

/** A landing of which the pairing leaves nothing to ask. */
const asPaired = (onset: number): LandingHypothesis => ({ weight: 1, before: 0, at: 0, after: 0, onset, alone: false });

/** The reading along the tracker's path, walked as it was played: every note at its displaced place, the silences where they were. */
function readAlong(
  score: Score,
  reading: Reading,
  {
    tracked,
    played,
    displacements,
    floorMs,
  }: {
    readonly tracked: Tracked;
    readonly played: PlayedOnsets;
    readonly displacements: Displacements;
    readonly floorMs: number;
  },
): { readonly reading: Reading; readonly places: Int32Array } {
  const { guide: written } = reading;
  const placeOf = new Int32Array(score.expected.length);
  const open: number[] = [];
  written.source.forEach((source, place) => {
    if (source >= 0) placeOf[source] = place;
    else open.push(place);
  });
  // Notes jumped over are not notes of this walk.
  const notes = score.expected.flatMap((note, source) => {
    const place = tracked.places[placeOf[source]!]!;
    return place < 0 ? [] : [{ source, note: { ...note, at: note.at + displacements.ms[place]! / 1000 } }];
  });
  notes.sort((a, b) => a.note.at - b.note.at || a.source - b.source);
  const moved = guideOf({ ...score, expected: notes.map(({ note }) => note) });
  let nextOpen = 0;
  const source = moved.source.map((k) => (k < 0 ? -1 : notes[k]!.source));
  const before = source.map((k) => (k < 0 ? open[nextOpen++]! : placeOf[k]!));
  const guide: Guide = { ...turningBack(moved, reading.paired.turnsBack), source };
  const onsets = before.map((place) => tracked.onsets[place]!);
  const places = before.map((place) => Math.max(0, tracked.places[place]!));
  const asynchrony = asynchronies(guide, played, onsets);
  const fitting = { prior: reading.prior, floorMs, start: reading.fit.mode };
  const mode = findMode(guide, asynchrony, { ...fitting, rounds: 5 });
  // Where notes change places, the rivals of the reading are of another take.
  const rivals = notes.some((each, k) => each.source !== k)
    ? []
    : reading.paired.rivals.filter(({ changes }) =>
        changes.every(([place]) => onsets[place] === reading.paired.onsets[place] && places[place] === 0),
      );
  const paired = { ...reading.paired, onsets, rivals };
  return {
    reading: { ...reading, guide, paired, asynchrony, fit: fitAround(guide, asynchrony, mode, fitting) },
    places,
  };
}

/** Per stretch, whether its landing must be looked into. */
function suspectsIn(
  score: Score,
  { guide, paired, asynchrony }: Reading,
  {
    played,
    landingPlaces,
    evidence,
  }: {
    readonly played: PlayedOnsets;
    readonly landingPlaces: readonly number[];
    readonly evidence: Evidence | undefined;
  },
): boolean[] {
  const taken = new Uint8Array(played.at.length);
  for (const onset of paired.onsets) if (onset >= 0) taken[onset] = 1;
  const wrong: number[] = [];
  for (let place = 0; place < guide.expected.length; place++) {
    const onset = paired.onsets[place]!;
    const out = onset < 0 ? guide.source[place]! >= 0 : (evidence?.(place, onset) ?? 0) < SPEAKS_AGAINST;
    if (out) wrong.push(guide.expected[place]!);
  }
  for (let onset = 0; onset < taken.length; onset++) if (taken[onset] === 0) wrong.push(played.at[onset]!);
  const elsewhere = changesPlace(guide, asynchrony);
  return score.dropouts.map((_, k) => {
    const landing = landingPlaces[k]!;
    if (landing < 0) return false;
    if (elsewhere || paired.onsets[landing]! < 0) return true;
    const { from, to } = guide.stretches[k]!;
    const until = to + CLOSES_AFTER_BEATS * guide.beatMsAt(to);
    return wrong.filter((at) => at >= from && at <= until).length >= OUT_OF_ORDER;
  });
}

/** Asynchronies of the accompanied passages, each from the end of one silence to the start of the next. */
function passagesOf(guide: Guide, asynchrony: Float64Array): number[][] {
  const edges = [Number.NEGATIVE_INFINITY, ...guide.stretches.map(({ to }) => to)];
  return edges.map((from, k) => {
    const until = guide.stretches[k]?.from ?? Number.POSITIVE_INFINITY;
    const late: number[] = [];
    for (let place = firstAtOrAfter(guide.expected, from); guide.expected[place]! <= until; place++)
      if (!Number.isNaN(asynchrony[place]!)) late.push(asynchrony[place]!);
    return late;
  });
}

// Where a player usually is, is told by what comes before the first silence, when that lies so many standard errors from the fit: who comes back more slowly than
// the model has it, or holds on for some beats, leaves the fit off. Lateness goes on from note to note, so that the error is that of a quarter of the notes.
const APART = 3;
const GOES_ON = 2;

/** Where the player usually is against the accompaniment, ms. */
export function usualPlace({ guide, asynchrony, fit }: Reading): Offset {
  const fitted = offsetIn(fit);
  const first = passagesOf(guide, asynchrony)[0]!;
  const centre = median(first);
  const sd = 1 + (GOES_ON * robustDeviation(first)) / Math.sqrt(first.length);
  return first.length < FEWEST_BEFORE || Math.abs(centre - fitted.mean) < APART * sd ? fitted : { mean: centre, sd };
}

function changesPlace(guide: Guide, asynchrony: Float64Array): boolean {
  const [first, ...others] = passagesOf(guide, asynchrony).map((late) => (late.length < 3 ? Number.NaN : median(late)));
  return others.some((place) => Math.abs(place - first!) > ELSEWHERE_MS);
}

// An offset of the whole take further off than this from what players show, in standard deviations, is a latency or a slip that the take was fitted to.
const STRANGE_OFFSET = 3;
// So many notes show an offset (our choice).
const FEWEST_FOR_OFFSET = 3;

/** The reading the tracker starts from: of what comes before the first silence alone, where the offset of the whole take is no player's. */
function firstPassageOf(
  score: Score,
  reading: Reading,
  { played, options }: { readonly played: PlayedOnsets; readonly options: ReadingOptions },
): Reading {
  const until = score.dropouts[0]!.from;
  const { offset } = beforeTake(score, options.latencyStandardErrorMs);
  const strange = Math.abs(offsetIn(reading.fit).mean - offset.mean) > STRANGE_OFFSET * offset.sd;
  if (!strange || score.expected.filter(({ at }) => at < until).length < FEWEST_FOR_OFFSET) return reading;
  const first = { from: Number.NEGATIVE_INFINITY, to: until };
  return readTake(scoreWithin(score, first), playedWithin(played, first), options);
}

/** The noise and the offset the tracker starts from. */
function startOf({ guide, asynchrony, fit }: Reading): {
  readonly point: Reading["fit"]["mode"];
  readonly offset: Offset;
} {
  const { passed } = fit.points[0];
  const fitted = { mean: passed.offset, sd: Math.sqrt(passed.offsetVariance) };
  const first = passagesOf(guide, asynchrony)[0]!;
  if (first.length < FEWEST_BEFORE) return { point: fit.mode, offset: fitted };
  const centre = median(first);
  const deviation = robustDeviation(first);
  const level = Math.log(Math.max(LEAST_LEVEL_MS, LEVEL_PER_SD * deviation));
  const apart = fit.mode[0] - level > LEVEL_APART;
  if (!apart && Math.abs(centre - fitted.mean) < OFFSET_APART_MS) return { point: fit.mode, offset: fitted };
  const point = [Math.min(fit.mode[0], level + LEVEL_MARGIN), fit.mode[1], fit.mode[2]] as const;
  return { point, offset: { mean: centre, sd: deviation / Math.sqrt(first.length) + 1 } };
}
