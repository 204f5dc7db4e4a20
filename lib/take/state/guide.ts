import { beatAt, beatsBetween, meanBeat } from "../../base/index.js";
import type { Score } from "../../schema/index.js";

/** Kinds of steps of the state space, in the order in which they happen at one instant: a note on the end of a silence is still unguided, and one silence ends before the next starts. A note apart tells nothing of the time before it. */
export const STEP = {
  note: 0,
  markEnds: 1,
  silenceEnds: 2,
  silenceStarts: 3,
  markStarts: 4,
  beat: 5,
  apart: 6,
} as const;

/** Instead of a place, on a beat on which the player is back with the accompaniment at once. */
export const BACK = -2;

/** A stretch over which drift is asked for; `silent` when the player's time runs free in it. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly silent: boolean;
}

/**
 * The steps of the state space along a score: every instant at which the player's time is observed, is no longer guided, is guided again or is
 * corrected.
 * Times are milliseconds from the downbeat of bar 1.
 */
export interface Guide {
  /** Where a note may be played: the expected onsets, and in open bars every subdivision. */
  readonly expected: Float64Array;
  /** Per place: index in the score's `expected`, or -1 for a subdivision of an open bar. */
  readonly source: Int32Array;
  /** Parallel lists, one entry a step, in order. */
  readonly kind: Uint8Array;
  readonly at: Float64Array;
  /** `note`: index of the place; marks and silences: index of the stretch; `beat`: index of the place on that beat, or -1, or `BACK`. */
  readonly index: Int32Array;
  /** Milliseconds a beat, on average where the tempo rises. */
  readonly beatMs: number;
  /** Milliseconds a beat at a time, ms. */
  readonly beatMsAt: (at: number) => number;
  /** The stretches that are marked: those whose drift is asked for. They do not overlap. */
  readonly stretches: readonly Stretch[];
}

// Our choice: score times are rounded to the nanosecond, so instants in the same microsecond are one instant.
const PER_MS = 1000;

/** The same walk by a player who is back at once on the beats at these times (ms): where it is given as negative, the note on that beat is in time again. */
export function turningBack(guide: Guide, times: readonly number[]): Guide {
  if (times.length === 0) return guide;
  const kind = guide.kind.map((each, step) =>
    each === STEP.note && times.includes(-guide.at[step]!) ? STEP.apart : each,
  );
  const index = guide.index.map((each, step) =>
    kind[step] === STEP.beat && times.some((time) => Math.abs(time) === guide.at[step]) ? BACK : each,
  );
  return { ...guide, kind, index };
}

/** The dropouts of a score as stretches. */
function dropoutsOf(score: Score): Stretch[] {
  return score.dropouts.map(({ from, to, silent }) => ({ from: from * 1000, to: to * 1000, silent }));
}

/** The walk over a score, with marks at the given stretches: its dropouts, unless others are asked about. */
export function guideOf(score: Score, stretches: readonly Stretch[] = dropoutsOf(score)): Guide {
  const beatMs = 1000 * meanBeat(score, score.duration);
  const beatMsAt = (at: number): number => 1000 * beatAt(score, at / 1000);
  const places = placesOf(score);
  const silences = dropoutsOf(score).filter(({ silent }) => silent);
  // In the order of STEP.
  const times = [
    places.at,
    stretches.map(({ to }) => to),
    silences.map(({ to }) => to),
    silences.map(({ from }) => from),
    stretches.map(({ from }) => from),
    audibleBeats(score, Math.min(0, places.at[0] ?? 0)),
  ];
  return { expected: places.at, source: places.source, ...inOrder(times, places.at), beatMs, beatMsAt, stretches };
}

/** Steps of every kind, each in order, as one list: by time, and at one instant by kind. */
function inOrder(times: readonly ArrayLike<number>[], expected: Float64Array): Pick<Guide, "kind" | "at" | "index"> {
  let count = 0;
  for (const list of times) count += list.length;
  const kind = new Uint8Array(count);
  const at = new Float64Array(count);
  const index = new Int32Array(count);
  const next = new Int32Array(times.length);
  const instants = Float64Array.from(times, (list) => instantOf(list[0]));
  for (let step = 0; step < count; step++) {
    let first = 0;
    for (let k = 1; k < instants.length; k++) if (instants[k]! < instants[first]!) first = k;
    const instant = instants[first]!;
    kind[step] = first;
    at[step] = instant / PER_MS;
    index[step] = next[first]!++;
    instants[first] = instantOf(times[first]![next[first]!]);
    if (first !== STEP.beat) continue;
    const last = next[STEP.note]! - 1;
    index[step] = last >= 0 && instantOf(expected[last]) === instant ? last : -1;
  }
  return { kind, at, index };
}

/** The microsecond a time in ms lies in; infinity when there is none. */
const instantOf = (at: number | undefined): number =>
  at === undefined ? Number.POSITIVE_INFINITY : Math.round(at * PER_MS);

/** The beats on which something sounds, ms, from `first` on. */
function audibleBeats(score: Score, first: number): number[] {
  return score.audible
    .flatMap(({ from, to }) => beatsBetween(score, Math.max(from, first / 1000), to))
    .map((at) => 1000 * at)
    .sort((a, b) => a - b);
}

/** Expected onsets and the subdivisions of open bars, in order of time. */
function placesOf(score: Score): { at: Float64Array; source: Int32Array } {
  if (score.open.length === 0) {
    const at = new Float64Array(score.expected.length);
    const source = new Int32Array(score.expected.length);
    for (let i = 0; i < at.length; i++) {
      at[i] = score.expected[i]!.at * 1000;
      source[i] = i;
    }
    return { at, source };
  }
  const notes = score.expected.map((note, index): [number, number] => [note.at * 1000, index]);
  const open = score.open.flatMap(({ from, to, subdivision, grid }) => {
    const count = Math.round((to - from) / subdivision);
    const subdivisions = grid ?? Array.from({ length: count }, (_, i) => from + i * subdivision);
    return subdivisions.map((at): [number, number] => [at * 1000, -1]);
  });
  const places = [...notes, ...open].sort((a, b) => a[0] - b[0]);
  return { at: Float64Array.from(places, ([at]) => at), source: Int32Array.from(places, ([, source]) => source) };
}

/** Index of the first of ascending times at or after `time`; their number when there is none. */
export function firstAtOrAfter(times: ArrayLike<number>, time: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Index of the nearest of ascending times to a time, from one that is not after it on; the later of two as near. */
export function nearestFrom(times: Float64Array, from: number, due: number): number {
  let k = from;
  while (k + 1 < times.length && Math.abs(times[k + 1]! - due) <= Math.abs(times[k]! - due)) k++;
  return k;
}
