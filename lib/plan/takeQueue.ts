import type { Phrase, Worded } from "../base/index.js";
import type { Rung } from "../drill/index.js";
import { PLAYING_MINUTES, REST_MINUTES, slotSeconds } from "./breaks.js";
import type { PlayLine } from "./model.js";
import type { Retention } from "./retention.js";
import { say } from "./say.js";
import { type Aim, chanceAt, type WorkEstimate } from "./workEstimate.js";

/** One take to be scheduled in a session, and why. */
export interface QueuedTake {
  readonly kind: PlayLine["kind"];
  readonly rung: Rung;
  readonly chance: number;
  readonly because: Worded;
}

export interface QueueTerms {
  readonly work: readonly WorkEstimate[];
  /** What is due for review, the most urgent first. */
  readonly due: readonly Retention[];
  /** Rungs for the warm-up, the easiest first. */
  readonly easy: readonly { readonly rung: Rung; readonly chance: number }[];
  readonly aim: Aim;
  readonly seconds: number;
}

/** Shares of a session: for the warm-up, and for review at most. Our choice. */
const WARM_UP_SHARE = 0.1;
const REVIEW_SHARE = 1 / 3;
/** Takes of one rung between two rests at most. Our choice, against strain and against dullness. */
const MOST_TAKES = 12;
/** Chance of a clean take below which a rung is too hard to be worked at, and takes of it at most. Our choice: failing again and again teaches nothing. */
const HARD = 0.2;
const MOST_HARD_TAKES = 3;
/** By how much a chance may differ from the aim and still be about right. Our choice. */
const NEAR = 0.1;
/** Takes of an easier rung before the rung itself. Our choice. */
const BUILD_UP_TAKES = 2;
/** Rungs worked on in one session at most. Our choice: more would leave too few takes for each gate. */
const MOST_WORK = 3;
/** Share of the time left that goes to each rung in work; the rest goes to the next. Our choice. */
const FIRST_SHARE = 0.6;
/** Takes of warm-up at most. Our choice. */
const MOST_WARM_UP = 3;
/** Seconds of a round: playing and the rest after it. */
const ROUND_SECONDS = (PLAYING_MINUTES + REST_MINUTES) * 60;
/** Chance of a clean take below which a rung is too hard for a warm-up. Our choice. */
const EASY = 0.7;

/**
 * Queue of takes for a session, round by round, in order, as many as there may be time for: warm-up, review, new work. A session longer than
 * half an hour has more than one round, with a rest between. New work comes in each of them.
 */
export function queueTakes(terms: QueueTerms): readonly (readonly QueuedTake[])[] {
  const { work, aim, seconds } = terms;
  const rounds = Math.max(1, Math.ceil(seconds / ROUND_SECONDS));
  let left = seconds - (rounds - 1) * REST_MINUTES * 60;
  const first = [...warmUp(terms), ...reviews(terms, work.length === 0 ? left : REVIEW_SHARE * seconds)];
  left -= sum(first, aim);
  return Array.from({ length: rounds }, (_, round) => {
    const begin = round === 0 ? first : [];
    const next = newWork(terms, { seconds: left / (rounds - round), again: round > 0 });
    left -= sum(next, aim);
    return [...begin, ...next];
  });
}

function warmUp({ work, due, easy, aim, seconds }: QueueTerms): readonly QueuedTake[] {
  const warm = easy[0];
  if (warm === undefined || warm.chance < EASY || work.length + due.length === 0) return [];
  const count = Math.min(MOST_WARM_UP, Math.floor((WARM_UP_SHARE * seconds) / length(warm.rung, aim)));
  return times(count, { kind: "warm-up", ...warm, because: say("plan.warm-up") });
}

function reviews({ due, aim }: QueueTerms, seconds: number): readonly QueuedTake[] {
  let left = seconds;
  return due.flatMap((retention) => {
    const count = retention.held ? 1 : 2;
    const needed = count * length(retention.rung, aim);
    if (needed > left) return [];
    left -= needed;
    const { rung } = retention;
    return times(count, { kind: "review", rung, chance: chanceAt(rung, aim), because: whyReview(retention) });
  });
}

function newWork(
  { work, aim }: QueueTerms,
  { seconds, again }: { readonly seconds: number; readonly again: boolean },
): readonly QueuedTake[] {
  let left = seconds;
  return work.slice(0, MOST_WORK).flatMap((each, i, all) => {
    const share = i === all.length - 1 ? left : FIRST_SHARE * left;
    const { rung, chance, easier } = each;
    const slot = length(rung, aim);
    const prepared =
      !again && easier !== undefined && share >= BUILD_UP_TAKES * length(easier.rung, aim) + slot
        ? times(BUILD_UP_TAKES, { kind: "build-up", ...easier, because: whyEasier(each, easier.chance) })
        : [];
    const room = Math.floor((share - sum(prepared, aim)) / slot);
    // The first rung gets one take in any case. What does not fit is left out of the schedule.
    const most = chance < HARD ? MOST_HARD_TAKES : MOST_TAKES;
    const count = Math.min(most, i === 0 && !again ? Math.max(1, room) : room);
    const takes = [...prepared, ...times(count, { kind: "new work", rung, chance, because: whyNew(each, aim) })];
    left -= sum(takes, aim);
    return takes;
  });
}

function times(count: number, take: QueuedTake): readonly QueuedTake[] {
  return Array.from({ length: Math.max(0, count) }, () => take);
}

/** Seconds of a take with its pause. */
function length(rung: Rung, { demands }: Aim): number {
  return slotSeconds(demands.of(rung).seconds);
}

/** Seconds of takes with their pauses. */
function sum(takes: readonly QueuedTake[], aim: Aim): number {
  return takes.reduce((total, { rung }) => total + length(rung, aim), 0);
}

function whyEasier({ chance }: WorkEstimate, easier: number): Worded {
  return say("plan.easier-first", { easier: often(easier), own: often(chance) });
}

function whyNew({ chance, cleanNeeded }: WorkEstimate, { target }: Aim): Worded {
  if (chance < HARD) return say("plan.still-hard", { often: often(chance) });
  const reach = chance > target + NEAR ? "easy" : chance < target - NEAR ? "hard" : "right";
  return say("plan.your-rung", { reach, often: often(chance), needed: cleanNeeded });
}

function whyReview({ days, held }: Retention): Worded {
  if (!held) return say("plan.show-again");
  return Number.isFinite(days) ? say("plan.last-played", { days }) : say("plan.never-heard");
}

/** A chance of a clean take in takes: "9 takes in 10", "1 take in 100". */
function often(share: number): Phrase {
  const inTen = Math.round(10 * share);
  const [count, of] = inTen > 0 && inTen < 10 ? [inTen, 10] : [Math.min(99, Math.max(1, Math.round(100 * share))), 100];
  return say("plan.often", { count: count!, of: of! }).message;
}
