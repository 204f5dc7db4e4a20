import type { Rung } from "../drill/index.js";
import { PLAYING_MINUTES, REST_MINUTES } from "./cautions.js";
import type { PlayLine } from "./model.js";
import type { Fading } from "./review.js";
import { slotSeconds } from "./takeSlot.js";
import { type Aim, chanceAt, type Work } from "./workEstimate.js";

/** One take wanted in a session, and why. */
export interface Wanted {
  readonly kind: PlayLine["kind"];
  readonly rung: Rung;
  readonly chance: number;
  readonly because: string;
}

export interface WantedTerms {
  readonly work: readonly Work[];
  /** What is fading, the most faded first. */
  readonly due: readonly Fading[];
  readonly easy: readonly { readonly rung: Rung; readonly chance: number }[];
  readonly aim: Aim;
  readonly seconds: number;
}

/** Share of a session for warming up and, at most, for review. Our choice. */
const WARM_UP_SHARE = 0.1;
const REVIEW_SHARE = 1 / 3;
/** Takes of one rung between two rests at most: our choice, against strain and against dullness. */
const MOST_TAKES = 12;
/** Takes of an easier rung before the rung itself. */
const BUILD_UP_TAKES = 2;
/** Rungs worked on in one session: our choice; more would leave too few takes for each gate. */
const MOST_WORK = 3;
/** Share of what is left that goes to each rung in work, the rest to the next. */
const FIRST_SHARE = 0.6;
/** Takes of warm-up at most: our choice. */
const MOST_WARM_UP = 3;
/** Playing and the rest after it. */
const ROUND_SECONDS = (PLAYING_MINUTES + REST_MINUTES) * 60;
/** A warm-up is no use when it is likely to go wrong: our choice. */
const EASY = 0.7;

/**
 * The takes wanted in a session, in order, as many as there may be time for: warm-up, review, new work. A session longer than half an hour has
 * more than one round, with a rest between; new work comes in each of them.
 */
export function wantedTakes(terms: WantedTerms): readonly (readonly Wanted[])[] {
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

function warmUp({ work, due, easy, aim, seconds }: WantedTerms): readonly Wanted[] {
  const warm = easy[0];
  if (warm === undefined || warm.chance < EASY || work.length + due.length === 0) return [];
  const count = Math.min(MOST_WARM_UP, Math.floor((WARM_UP_SHARE * seconds) / length(warm.rung, aim)));
  return times(count, { kind: "warm-up", ...warm, because: `easy for you (${percent(warm.chance)} clean): settle in` });
}

function reviews({ due, aim }: WantedTerms, seconds: number): readonly Wanted[] {
  let left = seconds;
  return due.flatMap((fading) => {
    const count = fading.held ? 1 : 2;
    const needed = count * length(fading.rung, aim);
    if (needed > left) return [];
    left -= needed;
    const { rung } = fading;
    return times(count, { kind: "review", rung, chance: chanceAt(rung, aim), because: whyReview(fading) });
  });
}

function newWork(
  { work, aim }: WantedTerms,
  { seconds, again }: { readonly seconds: number; readonly again: boolean },
): readonly Wanted[] {
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
    // The first is wanted in any case: what does not fit is left out when the takes are put together.
    const count = Math.min(MOST_TAKES, i === 0 && !again ? Math.max(1, room) : room);
    const takes = [...prepared, ...times(count, { kind: "new work", rung, chance, because: whyNew(each, aim) })];
    left -= sum(takes, aim);
    return takes;
  });
}

function times(count: number, wanted: Wanted): readonly Wanted[] {
  return Array.from({ length: Math.max(0, count) }, () => wanted);
}

function length(rung: Rung, { demands }: Aim): number {
  return slotSeconds(demands.of(rung).seconds);
}

function sum(takes: readonly Wanted[], aim: Aim): number {
  return takes.reduce((total, { rung }) => total + length(rung, aim), 0);
}

function whyEasier({ chance }: Work, easier: number): string {
  return `easier first: the rung itself is at ${percent(chance)}, this one at ${percent(easier)}`;
}

function whyNew({ chance, wanting }: Work, { target }: Aim): string {
  const distance =
    chance > target + 0.1
      ? "within reach"
      : chance < target - 0.1
        ? `below the ${percent(target)} aimed at`
        : `near the ${percent(target)} aimed at`;
  return `your rung: ${percent(chance)} clean, ${distance}; ${wanting} more clean ${wanting === 1 ? "take" : "takes"} may open the gate`;
}

function whyReview({ days, kept, held }: Fading): string {
  if (!held) return "its last takes no longer meet its gate: show it again";
  if (!Number.isFinite(days)) return "complete, but never heard here: look whether it is there";
  const ago = days === 0 ? "played today" : days === 1 ? "last played yesterday" : `last played ${days} days ago`;
  return `${ago}: ${percent(kept)} likely kept, by a curve for facts`;
}

function percent(share: number): string {
  return `${Math.min(99, Math.max(1, Math.round(100 * share)))} %`;
}
