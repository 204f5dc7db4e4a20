import type { Worded } from "../base/index.js";
import type { Rung } from "../drill/index.js";
import type { Intention } from "./layOut.js";
import { HARD } from "./limits.js";
import type { Retention } from "./retention.js";
import { say } from "./say.js";
import { type StepTerms, stepOf } from "./steps.js";
import { chanceAt } from "./workEstimate.js";

/** Minutes of a session from which on it has a warm-up of its own: in a shorter one the rung in work serves, and a take of warm-up is a twentieth or more. Our choice. */
const WARM_UP_FROM = 30;
/** Chance of a clean take below which a rung is too hard for a warm-up. Our choice. */
const EASY = 0.7;
/** Share of a session for review at most, and one take in any case. Our choice. */
const REVIEW_SHARE = 0.1;

/** The warm-up, in a long session: one take of the easiest rung, when nothing was played today. */
export function warmUp(
  easy: readonly { readonly rung: Rung; readonly chance: number }[],
  terms: StepTerms,
  { minutes, isFirst }: { readonly minutes: number; readonly isFirst: boolean },
): readonly Intention[] {
  const warm = easy[0];
  if (!isFirst || minutes < WARM_UP_FROM || warm === undefined || warm.chance < EASY) return [];
  const { rung, chance } = warm;
  return [{ steps: [stepOf(rung, "warm-up", terms)], takes: 1, chance, because: say("plan.warm-up") }];
}

/** Reviews of what is due, one take each, the most urgent first; what is out of reach by the forecast is left out. */
export function reviews(
  due: readonly Retention[],
  terms: StepTerms,
  { seconds, isAll }: { readonly seconds: number; readonly isAll: boolean },
): readonly Intention[] {
  let left = isAll ? seconds : REVIEW_SHARE * seconds;
  return due.flatMap((retention, i) => {
    const step = stepOf(retention.rung, "review", terms);
    const isOver = step.seconds > left && (i > 0 || !isAll) && (i > 0 || seconds < 5 * step.seconds);
    const chance = isOver ? 0 : chanceAt(retention.rung, terms.aim);
    if (chance < HARD) return [];
    left -= step.seconds;
    return [{ steps: [step], takes: 1, chance, because: whyReview(retention) }];
  });
}

function whyReview({ days, held }: Retention): Worded {
  if (!held) return say("plan.show-again");
  return Number.isFinite(days) ? say("plan.last-played", { days }) : say("plan.never-heard");
}
