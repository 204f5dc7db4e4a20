import type { DropoutFinding, Finding, PlayedOnset, Score, Take } from "../schema/index.js";
import { type AssessOptions, assess } from "./assess.js";
import { latencyStandardErrorOf, playedOnsets } from "./onsets.js";
import { rounded } from "./rounding.js";
import { firstAtOrAfter, guideOf } from "./state/guide.js";
import { noiseAt, PRIOR, pointAtLevel } from "./state/noise.js";
import { startWalk, type Walk } from "./state/pairing.js";
import { beforeTake } from "./state/reading.js";

/** Where a player is, as far as can be told while the take goes on. */
export interface Following {
  /** Seconds from bar 1 up to which the score has been followed: a little behind the last onset, so that late notes are not called missed. */
  readonly at: number;
  /** The player's asynchrony now, milliseconds, the constant offset taken off. */
  readonly asynchronyMs: number;
  /** The constant offset so far, milliseconds. */
  readonly offsetMs: number;
  /** Index of the dropout the score is in, or null. */
  readonly dropout: number | null;
  /** Change of the asynchrony since that dropout began, milliseconds; null outside dropouts. */
  readonly driftMs: number | null;
  /** Findings of the dropouts that have ended: judged at the landing, once more two bars later, and then kept. The whole take still refines them. */
  readonly provisional: readonly DropoutFinding[];
  /** How many of these, from the first, are kept. */
  readonly kept: number;
}

/** A take that is followed while it is played. Lives until `finish`. */
export interface Follower {
  /** One more onset, seconds on the take's clock, not before the last one. Throws `RangeError` when it is. */
  play(onset: number | PlayedOnset): Following;
  /** Where the player is when nothing more has been played up to this time, seconds on the take's clock. */
  now(at: number): Following;
  /** The finding of the whole take: exactly what `assess` says of it. */
  finish(): Finding;
}

// How far behind the last onset the score is followed, in beats: by then a note that is coming has come (our choice: no steady player is later).
const BEHIND_BEATS = 0.5;
// A dropout is judged for the first time when the score has been followed to its landing, and for the last time so many bars later (our choice).
const KEPT_AFTER_BARS = 2;
// It is judged by what was played from so many beats before it: what lies further off bears on no drift, and makes an onset of a long take dearer
// than one of a short take. A window that would begin in a silence, or so near after one, begins before that silence.
const BEARS_BEATS = 8;
const SETTLED_BEATS = 4;

/**
 * Follows a take onset by onset, for live use; the same model as `assess`, started from the prior and walked once. An onset costs the same however
 * long the take is: a dropout is judged by what was played around it.
 *
 * @param take what is known of the take but its onsets: `zero`, latency and so on
 *
 * @example
 * const follower = follow(score, { zero: "bar-1" });
 * for (const { at } of score.expected) follower.play(at);
 * follower.finish().verdict; // "within"
 */
export function follow(score: Score, take: Omit<Take, "onsets"> = {}, options: AssessOptions = {}): Follower {
  const onsets: (number | PlayedOnset)[] = [];
  const walked = walkAlong(score, take);
  const tolerance = options.tolerance ?? score.tolerance;
  let provisional: readonly DropoutFinding[] = [];
  let kept = 0;
  let last = Number.NEGATIVE_INFINITY;
  let reached = Number.NEGATIVE_INFINITY;
  let next = 0;
  let drift: { dropout: number; from: number } | undefined;

  function judged(dropout: number, until: number): DropoutFinding {
    const from = windowFrom(score, dropout);
    const part = scoreBetween(score, from, until);
    const [first, end] = [walked.firstFrom(from), walked.firstFrom(until)];
    const found = assess(part.score, { ...take, onsets: onsets.slice(first, end) }, { tolerance });
    return found.dropouts[dropout - part.firstDropout]!;
  }

  function judge(until: number): void {
    const { dropouts, beat } = score;
    while (kept < provisional.length && until >= keptFrom(score, kept)) {
      const finding = judged(kept, Math.min(until, keptFrom(score, kept)));
      provisional = provisional.map((each, k) => (k === kept ? finding : each));
      kept++;
    }
    while (provisional.length < dropouts.length && until >= dropouts[provisional.length]!.to) {
      const index = provisional.length;
      const final = until >= keptFrom(score, index);
      provisional = [...provisional, judged(index, final ? keptFrom(score, index) : until + BEHIND_BEATS * beat)];
      if (final && kept === index) kept++;
    }
  }

  function advance(at: number): Following {
    reached = Math.max(reached, at);
    while (next < score.dropouts.length && reached >= score.dropouts[next]!.to) next++;
    const inside = next < score.dropouts.length && reached >= score.dropouts[next]!.from;
    if (inside && drift?.dropout !== next)
      drift = { dropout: next, from: walked.to(score.dropouts[next]!.from).asynchrony };
    const { asynchrony, offset } = walked.to(reached);
    judge(reached);
    return {
      at: reached,
      asynchronyMs: rounded(asynchrony - offset),
      offsetMs: rounded(offset),
      dropout: inside ? next : null,
      driftMs: inside ? rounded(asynchrony - drift!.from) : null,
      provisional,
      kept,
    };
  }

  return {
    play(onset) {
      const at = typeof onset === "number" ? onset : onset.at;
      if (!(at >= last)) throw new RangeError(`onsets are followed in order of time: ${at} s came after ${last} s`);
      last = at;
      onsets.push(onset);
      const onScore = walked.hear(onset);
      return advance(onScore - BEHIND_BEATS * score.beat);
    },
    now: (at) => advance(walked.onScore(at) - BEHIND_BEATS * score.beat),
    finish: () => assess(score, { ...take, onsets }, options),
  };
}

/** When a dropout is judged for the last time: some bars after its end, or where the next one begins. */
function keptFrom(score: Score, index: number): number {
  const { to } = score.dropouts[index]!;
  const bar = score.bars.length > 1 ? score.bars[1]!.at - score.bars[0]!.at : 4 * score.beat;
  return Math.min(to + KEPT_AFTER_BARS * bar, score.dropouts[index + 1]?.from ?? Number.POSITIVE_INFINITY);
}

/** Where the stretch begins by which a dropout is judged. */
function windowFrom({ dropouts, beat }: Score, index: number): number {
  let from = dropouts[index]!.from - BEARS_BEATS * beat;
  for (let k = index - 1; k >= 0 && from < dropouts[k]!.to + SETTLED_BEATS * beat; k--)
    if (from > dropouts[k]!.from - SETTLED_BEATS * beat) from = dropouts[k]!.from - SETTLED_BEATS * beat;
  return from - beat / 4;
}

/** The score between two moments, without looking at the rest of it. */
function scoreBetween(
  score: Score,
  from: number,
  until: number,
): { readonly score: Score; readonly firstDropout: number } {
  const between = <S extends { readonly from: number; readonly to: number }>(stretches: readonly S[]): S[] =>
    stretches
      .slice(
        firstWhere(stretches, ({ to }) => to > from),
        firstWhere(stretches, (each) => each.from >= until),
      )
      .map((each) => ({ ...each, from: Math.max(from, each.from) }));
  const notes = score.expected;
  return {
    firstDropout: firstWhere(score.dropouts, ({ to }) => to > from),
    score: {
      ...score,
      bars: barsBetween(score, from, until),
      expected: notes.slice(
        firstWhere(notes, ({ at }) => at >= from),
        firstWhere(notes, ({ at }) => at >= until),
      ),
      dropouts: between(score.dropouts),
      audible: between(score.audible),
      open: between(score.open).filter(({ to }) => to <= until),
      duration: Math.min(score.duration, until),
    },
  };
}

/** The bars between two moments, from the start of a phrase to the bar after them. */
function barsBetween({ bars }: Score, from: number, until: number): Score["bars"] {
  let first = Math.max(0, firstWhere(bars, ({ at }) => at > from) - 1);
  while (first > 0 && bars[first - 1]!.phrase === bars[first]!.phrase) first--;
  return bars.slice(first, firstWhere(bars, ({ at }) => at >= until) + 1);
}

/** Index of the first of a list for which a condition holds that holds for all after it. */
function firstWhere<Item>(items: readonly Item[], holds: (item: Item) => boolean): number {
  let [low, high] = [0, items.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(items[middle]!)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The walk of one reading along a score, fed by onsets as they come; it goes by time alone. */
function walkAlong(
  score: Score,
  take: Omit<Take, "onsets">,
): {
  /** Takes an onset in; answers when it fell, seconds from bar 1. */
  hear(onset: number | PlayedOnset): number;
  onScore(at: number): number;
  /** Number of onsets before a time, seconds from bar 1. */
  firstFrom(at: number): number;
  to(at: number): ReturnType<Walk["belief"]>;
} {
  const { offset, chances } = beforeTake(score, latencyStandardErrorOf(take));
  const noise = noiseAt(pointAtLevel(PRIOR.motor), take.motorFloorMs ?? 0);
  const walk = startWalk(guideOf(score), { noise, prior: offset, missing: chances.missing });
  const adding = Math.log(chances.adding);
  let times = new Float64Array(256);
  let rates = new Float64Array(256).fill(adding);
  let count = 0;
  const onScore = (onset: number | PlayedOnset): number =>
    playedOnsets(score, { ...take, onsets: [onset] }).at[0]! / 1000;
  return {
    hear(onset) {
      if (count === times.length) {
        const longer = new Float64Array(2 * count);
        longer.set(times);
        times = longer;
        rates = new Float64Array(2 * count).fill(adding);
      }
      times[count++] = onScore(onset) * 1000;
      return times[count - 1]! / 1000;
    },
    onScore,
    firstFrom: (at) => firstAtOrAfter(times.subarray(0, count), 1000 * at),
    to(at) {
      walk.on(at * 1000, { at: times.subarray(0, count), logAdded: rates.subarray(0, count) });
      return walk.belief();
    },
  };
}
