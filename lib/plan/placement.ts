import { type Drill, type Rung, rungs, settingsText } from "../drill/index.js";
import {
  type Belief,
  type DemandCache,
  demandCache,
  forecast,
  observationOf,
  priorBelief,
  TARGET,
  updateBelief,
} from "../forecast/index.js";
import type { TakeAssessed } from "../schema/index.js";
import { firstTooHard } from "./climb.js";

/** How far finding a new student's rung has come. */
export interface Placing {
  readonly drill: Drill;
  readonly belief: Belief;
  readonly target: number;
  /** The rung to play next; the rung to begin on once `done`. */
  readonly rung: Rung;
  readonly done: boolean;
  /** Takes played for it. */
  readonly tried: readonly { readonly index: number; readonly verdict: TakeAssessed["verdict"] }[];
  /** In a sentence, for the event by which the student is put there (`because`). */
  readonly says: string;
}

export interface PlacingOptions {
  /** What is known already; any player when left out. */
  readonly belief?: Belief;
  /** Chance of a clean take on the rung found, from above 0 to below 1; 0.85 when left out. */
  readonly target?: number;
}

/** By how much the chance on the rung played may differ from the aim for the rung to fit: our choice. */
const NEAR = 0.05;
/** Widest interval (nine in ten) of the chance there, to stop looking: our choice. One take says little of a player. */
const SURE_ENOUGH = 0.4;
/** Takes of the easiest rung after which there is nothing left to look for: our choice. */
const MOST_AT_BOTTOM = 5;
/** Takes after which the best rung shown is taken: our choice. */
const MOST_TAKES = 12;

/**
 * Begins to find the rung of a new student in a drill: play `rung`, assess it, give the finding's figures to `placeAfter`, and so on until
 * `done`. The rung asked for is the last before the chance of a clean take falls short of the target, by all that is known of the player so
 * far; it is found by arithmetic, however many rungs there are.
 *
 * Throws `RangeError` for a target that is no chance.
 */
export function beginPlacing(drill: Drill, { belief = priorBelief(), target = TARGET }: PlacingOptions = {}): Placing {
  if (!(target > 0 && target < 1)) throw new RangeError(`the chance aimed at must lie between 0 and 1, got ${target}`);
  const rung = fitting(drill, belief, { target, demands: demandCache() });
  return { drill, belief, target, rung, done: false, tried: [], says: "Nothing was played yet." };
}

/**
 * The next step, from what the take of `placing.rung` showed. It is done when a clean take was played to a rung that fits (so that the
 * tolerance is met where the student is placed); when even the first rung is too hard, on that; or after 12 takes, on the hardest rung that was
 * played clean.
 */
export function placeAfter(placing: Placing, shown: Pick<TakeAssessed, "verdict" | "measured">): Placing {
  const { drill, target } = placing;
  if (placing.done) throw new RangeError("this student has been placed; begin anew to place them again");
  const demands = demandCache();
  const { demand } = demands.of(placing.rung);
  const belief = updateBelief(placing.belief, observationOf(demand, shown));
  const tried = [...placing.tried, { index: placing.rung.index, verdict: shown.verdict }];
  const next = fitting(drill, belief, { target, demands });
  const now = { ...placing, belief, tried };
  const here = forecast(belief, demand);
  const fits = next.index === placing.rung.index || Math.abs(here.clean - target) <= NEAR;
  const sure = here.interval[1] - here.interval[0] <= SURE_ENOUGH;
  if (shown.verdict === "within" && fits && sure)
    return placed(now, placing.rung, `${percent(here.clean)} clean by the forecast`);
  const atBottom = tried.filter(({ index }) => index === 0).length;
  const hopeless = shown.verdict === "beyond" && here.interval[1] < target;
  if (next.index === 0 && placing.rung.index === 0 && (hopeless || atBottom >= MOST_AT_BOTTOM))
    return placed(now, next, "there is no easier rung");
  if (tried.length < MOST_TAKES) return { ...now, rung: next, says: `Still looking, after ${takes(tried.length)}.` };
  const clean = tried.filter(({ index, verdict }) => verdict === "within" && index <= next.index);
  const best = rungs(drill).at(Math.max(0, ...clean.map(({ index }) => index)));
  return placed(
    now,
    best,
    clean.length > 0 ? "the hardest within reach that was played clean" : "nothing harder was shown",
  );
}

function placed(placing: Placing, rung: Rung, why: string): Placing {
  const says = `Placed on ${settingsText(rung.settings)} after ${takes(placing.tried.length)}: ${why}.`;
  return { ...placing, rung, done: true, says };
}

/** The last rung before the first that falls short of the target; the first of all when that one does. */
function fitting(
  drill: Drill,
  belief: Belief,
  { target, demands }: { readonly target: number; readonly demands: DemandCache },
): Rung {
  const all = rungs(drill);
  const first = firstTooHard(drill, (rung) => forecast(belief, demands.of(rung).demand).clean < target);
  return first === undefined ? all.at(all.count - 1) : all.at(Math.max(0, first.index - 1));
}

function takes(count: number): string {
  return count === 1 ? "1 take" : `${count} takes`;
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
