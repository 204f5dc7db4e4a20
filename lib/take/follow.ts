import type { DropoutFinding, Finding, PlayedOnset, Score, Take } from "../schema/index.js";
import { type AssessOptions, assess } from "./assess.js";
import { latencyStandardErrorOf, playedOnsets } from "./onsets.js";
import { rounded } from "./rounding.js";
import { guideOf } from "./state/guide.js";
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
  /** Findings of the dropouts whose landing has been played; provisional, since later notes still refine them. */
  readonly provisional: readonly DropoutFinding[];
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
// How long after a landing its dropout is judged for the first time, in beats, so that the first note has been heard (our choice).
const JUDGED_AFTER_BEATS = 2;

/**
 * Follows a take onset by onset, for live use; the same model as `assess`, started from the prior and walked once, so that each onset costs the
 * same however long the take is; a dropout is judged anew from all that was played as soon as its landing has been.
 *
 * @param take what is known of the take but its onsets: `zero`, latency and so on
 */
export function follow(score: Score, take: Omit<Take, "onsets"> = {}, options: AssessOptions = {}): Follower {
  const onsets: (number | PlayedOnset)[] = [];
  const provisional: DropoutFinding[] = [];
  const walked = walkAlong(score, take);
  let last = Number.NEGATIVE_INFINITY;
  let reached = Number.NEGATIVE_INFINITY;
  let drift: { dropout: number; from: number } | undefined;

  function judge(until: number): void {
    for (;;) {
      const next = score.dropouts[provisional.length];
      if (next === undefined || until < next.to + JUDGED_AFTER_BEATS * score.beat) return;
      provisional.push(
        assess(soFar(score, provisional.length, until), { ...take, onsets }, options).dropouts[provisional.length]!,
      );
    }
  }

  function advance(at: number): Following {
    reached = Math.max(reached, at);
    const dropout = score.dropouts.findIndex(({ from, to }) => reached >= from && reached < to);
    if (dropout >= 0 && drift?.dropout !== dropout)
      drift = { dropout, from: walked.to(score.dropouts[dropout]!.from).asynchrony };
    const { asynchrony, offset } = walked.to(reached);
    judge(reached);
    return {
      at: reached,
      asynchronyMs: rounded(asynchrony - offset),
      offsetMs: rounded(offset),
      dropout: dropout < 0 ? null : dropout,
      driftMs: dropout < 0 ? null : rounded(asynchrony - drift!.from),
      provisional: [...provisional],
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

/** The score up to a moment, with its dropouts up to `last`. */
function soFar(score: Score, last: number, until: number): Score {
  return {
    ...score,
    expected: score.expected.filter(({ at }) => at <= until),
    dropouts: score.dropouts.slice(0, last + 1),
    open: score.open.filter(({ to }) => to <= until),
    duration: Math.min(score.duration, until),
  };
}

/** The walk of one reading along a score, fed by onsets as they come; it goes by time alone. */
function walkAlong(
  score: Score,
  take: Omit<Take, "onsets">,
): {
  /** Takes an onset in; answers when it fell, seconds from bar 1. */
  hear(onset: number | PlayedOnset): number;
  onScore(at: number): number;
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
    to(at) {
      walk.on(at * 1000, { at: times.subarray(0, count), logAdded: rates.subarray(0, count) });
      return walk.belief();
    },
  };
}
