import type { Message, Phrase, Worded } from "../base/index.js";
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
import { settingPhrases } from "../words/index.js";
import { firstTooHard } from "./rungBisection.js";
import { say } from "./say.js";

/** State of a placement: the search for the rung of a new student in a drill. */
export interface Placing {
  readonly drill: Drill;
  /** Posterior after the takes so far. */
  readonly belief: Belief;
  /** Chance of a clean take aimed at. */
  readonly target: number;
  /** The rung to play next; the rung to begin on once `done`. */
  readonly rung: Rung;
  readonly done: boolean;
  /** Takes played for the placement, in order. */
  readonly tried: readonly { readonly rung: Rung; readonly verdict: TakeAssessed["verdict"] }[];
  /** In a sentence, for the event by which the student is put there (`because`). */
  readonly says: string;
  /** The same sentence before it is worded. */
  readonly message: Message;
}

export interface PlacingOptions {
  /** What is known of the player already; the prior for any player when left out. */
  readonly belief?: Belief;
  /** Chance of a clean take on the rung found, from above 0 to below 1; 0.85 when left out. */
  readonly target?: number;
}

/** By how much the chance on the rung played may differ from the aim for the rung to fit. Our choice. */
const NEAR = 0.05;
/** Widest 90 % interval of the chance there at which the search may end. Our choice: one take says little of a player. */
const SURE_ENOUGH = 0.4;
/** Takes of the easiest rung after which the search ends there. Our choice. */
const MOST_AT_BOTTOM = 5;
/** Takes after which the search ends, on the best rung shown. Our choice. */
const MOST_TAKES = 12;

/**
 * Begins the placement of a new student in a drill: play `rung`, assess it, give the finding's figures to `placeAfter`, and so on until
 * `done`. The rung asked for is the last before the chance of a clean take falls short of the target, by the posterior so far. It is found
 * by bisection, however many rungs there are.
 *
 * Throws `RangeError` for a target that is no chance.
 *
 * @example
 * beginPlacing(drill).rung // what to play first
 */
export function beginPlacing(drill: Drill, { belief = priorBelief(), target = TARGET }: PlacingOptions = {}): Placing {
  if (!(target > 0 && target < 1)) throw new RangeError(`the chance aimed at must lie between 0 and 1, got ${target}`);
  const rung = fitting(drill, belief, { target, demands: demandCache() });
  return { drill, belief, target, rung, done: false, tried: [], ...say("plan.placing.begun") };
}

/**
 * Next state of a placement, after a take of `placing.rung`. It is done when a clean take was played on a rung that fits, so that the
 * tolerance is met where the student is placed; or when even the first rung is too hard, on that; or after 12 takes, on the hardest rung
 * that was played clean. Throws `RangeError` when the placement was done before.
 *
 * @example
 * placeAfter(beginPlacing(drill), { verdict: "unclear" }).tried.length // 1
 */
export function placeAfter(placing: Placing, shown: Pick<TakeAssessed, "verdict" | "measured">): Placing {
  const { drill, target } = placing;
  if (placing.done) throw new RangeError("this student has been placed; begin anew to place them again");
  const demands = demandCache();
  const { demand } = demands.of(placing.rung);
  const belief = updateBelief(placing.belief, observationOf(demand, shown));
  const tried = [...placing.tried, { rung: placing.rung, verdict: shown.verdict }];
  const next = fitting(drill, belief, { target, demands });
  const now = { ...placing, belief, tried };
  const here = forecast(belief, demand);
  const fits = next.index === placing.rung.index || Math.abs(here.clean - target) <= NEAR;
  const sure = here.interval[1] - here.interval[0] <= SURE_ENOUGH;
  if (shown.verdict === "within" && fits && sure)
    return placed(now, placing.rung, say("plan.placing.by-forecast", { percent: Math.round(100 * here.clean) }));
  const atBottom = tried.filter(({ rung }) => rung.index === 0).length;
  const hopeless = shown.verdict === "beyond" && here.interval[1] < target;
  if (next.index === 0 && placing.rung.index === 0 && (hopeless || atBottom >= MOST_AT_BOTTOM))
    return placed(now, next, say("plan.placing.no-easier"));
  if (tried.length < MOST_TAKES) return { ...now, rung: next, ...say("plan.placing.looking", { takes: tried.length }) };
  const clean = tried.filter(({ rung, verdict }) => verdict === "within" && rung.index <= next.index);
  const best = rungs(drill).at(Math.max(0, ...clean.map(({ rung }) => rung.index)));
  return placed(now, best, say(clean.length > 0 ? "plan.placing.hardest" : "plan.placing.nothing-harder"));
}

function placed(placing: Placing, rung: Rung, { message: why }: Worded<Phrase>): Placing {
  const said = settingPhrases(settingsText(rung.settings));
  const settings = said.length === 0 ? [{ key: "setting.only-rung", parameters: {} }] : said;
  return {
    ...placing,
    rung,
    done: true,
    ...say("plan.placing.placed", { settings, takes: placing.tried.length, why }),
  };
}

/** The last rung before the first one that falls short of the target; the first of all when that one does. */
function fitting(
  drill: Drill,
  belief: Belief,
  { target, demands }: { readonly target: number; readonly demands: DemandCache },
): Rung {
  const all = rungs(drill);
  const first = firstTooHard(drill, (rung) => forecast(belief, demands.of(rung).demand).clean < target);
  return first === undefined ? all.at(all.count - 1) : all.at(Math.max(0, first.index - 1));
}
