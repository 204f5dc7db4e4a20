import type { Score } from "../../schema/index.js";
import type { Counts } from "../metrics/counts.js";
import { mean } from "../metrics/statistics.js";
import type { PlayedOnsets } from "../onsets.js";
import { evidenceOf } from "./evidence.js";
import { type Guide, nearestFrom } from "./guide.js";
import type { Reading } from "./reading.js";

/** From one onset on, everything comes so much later than before, and stays so: the sound was interrupted, or the player moved. */
export interface Step {
  /** Milliseconds from bar 1, as played: the first onset at the new place. */
  readonly from: number;
  /** Negative: earlier. */
  readonly ms: number;
}

// Looked for where a step would explain such a share of the variance while accompanied, or such a share of the notes is missed or added, which saves time and no
// more (players in time: 0.3 at most in nine takes of ten).
const LEAST_SHARE = 0.3;
const WRONG = 0.1;
// Places are tried so far apart, up to so many beats either way. An onset speaks for a place by how near to it a note is, and against it by so much at most; of
// places that suit alike the nearer is taken, by so much for each beat, and the one that leaves out fewer notes at the ends (natural logarithms). Our choice.
const APART_MS = 15;
const WIDTH_MS = 25;
const FURTHEST_BEATS = 2;
const AGAINST = -4;
const FARTHER = 2;
const MISSED = 3;
// Nearer to a silence than this, a step is the player's: what was lost in it, or is being found after it (our choice).
const SETTLED_BEATS = 1;
// So many onsets show a place, and places nearer than this are one.
const FEWEST = 3;
const SAME_MS = 40;

/** The step between two places that suits the onsets best; `undefined` when it is none, or lies where the player was not accompanied. */
export function stepIn(
  score: Score,
  { guide, asynchrony }: Reading,
  { played, counts: { pairs, missed, added } }: { readonly played: PlayedOnsets; readonly counts: Counts },
): Step | undefined {
  const { at } = played;
  const { expected, beatMs, stretches } = guide;
  const count = at.length;
  if (pairs.length < 2 * FEWEST) return undefined;
  if (missed.length + added.length < WRONG * score.expected.length && shareOfStep(guide, asynchrony) < LEAST_SHARE)
    return undefined;
  const evidence = evidenceOf(score, guide, played);
  const [before, after] = [bestOf(count), bestOf(count)];
  const suits = new Float64Array(count);
  const reach = Math.ceil((FURTHEST_BEATS * beatMs) / APART_MS) * APART_MS;
  for (let place = -reach; place <= reach; place += APART_MS) {
    const far = (-FARTHER * Math.abs(place)) / beatMs;
    let note = 0;
    let sum = far;
    for (let k = 0; k < count; k++) {
      before.take(k, sum, place);
      note = nearestFrom(expected, note, at[k]! - place);
      const near = -0.5 * ((at[k]! - place - expected[note]!) / WIDTH_MS) ** 2;
      suits[k] = near < 2 * AGAINST ? AGAINST : Math.max(AGAINST, near + (evidence?.(note, k) ?? 0));
      if (k === 0) sum -= MISSED * note;
      sum += suits[k]!;
    }
    sum = far - MISSED * (expected.length - 1 - note);
    for (let k = count - 1; k >= 0; k--) {
      sum += suits[k]!;
      after.take(k, sum, place);
    }
  }
  let k = FEWEST;
  for (let other = k + 1; other <= count - FEWEST; other++)
    if (before.suits[other]! + after.suits[other]! > before.suits[k]! + after.suits[k]!) k = other;
  const [one, other] = [before.place[k]!, after.place[k]!];
  const [last, first] = [at[k - 1]! - one, at[k]! - other];
  const near = SETTLED_BEATS * beatMs;
  if (stretches.some(({ from, to }) => last < to + near && first > from - near)) return undefined;
  const around = [nearOf(expected, at.subarray(0, k), one), nearOf(expected, at.subarray(k), other)] as const;
  const beside = [
    nearOf(expected, at.subarray(k - FEWEST, k), one),
    nearOf(expected, at.subarray(k, k + FEWEST), other),
  ];
  if (beside.some(({ length }) => length < FEWEST)) return undefined;
  const ms = mean(around[1]) - mean(around[0]);
  return Math.abs(ms) < SAME_MS ? undefined : { from: at[k]!, ms };
}

/** The largest share of the variance of the asynchronies while accompanied that one step explains. */
function shareOfStep({ expected, stretches }: Guide, asynchrony: Float64Array): number {
  const late = asynchrony.filter(
    (ms, place) =>
      !Number.isNaN(ms) && !stretches.some(({ from, to }) => expected[place]! > from && expected[place]! <= to),
  );
  if (late.length < 2 * FEWEST) return 0;
  const centre = mean(late);
  let [all, sum, most] = [0, 0, 0];
  late.forEach((ms, k) => {
    all += (ms - centre) ** 2;
    sum += ms - centre;
    const rest = late.length - k - 1;
    if (k + 1 >= FEWEST && rest >= FEWEST) most = Math.max(most, (sum * sum * late.length) / ((k + 1) * rest));
  });
  return most / all;
}

interface Best {
  readonly suits: Float64Array;
  readonly place: Float64Array;
  take(k: number, suits: number, place: number): void;
}

function bestOf(count: number): Best {
  const best = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
  const places = new Float64Array(count);
  return {
    suits: best,
    place: places,
    take(k, suits, place) {
      if (suits <= best[k]!) return;
      best[k] = suits;
      places[k] = place;
    },
  };
}

/** How late the onsets near a place are against the score, ms. */
function nearOf(expected: Float64Array, at: Float64Array, place: number): Float64Array {
  let note = 0;
  return at
    .map((time) => {
      note = nearestFrom(expected, note, time - place);
      return time - expected[note]!;
    })
    .filter((late) => Math.abs(late - place) < 2 * WIDTH_MS);
}

/** The onsets as they would have come without the step. */
export function withoutStep(played: PlayedOnsets, { from, ms }: Step): PlayedOnsets {
  return { ...played, at: played.at.map((at) => (at < from ? at : at - ms)) };
}
